# Scores of predicted single stays under censoring.
# Brier score with censoring weights: R's `pec` (Gerds), whose weights are a product-limit estimate of its own. Whole days become
# times so that nothing ties: an end of day d at d + 0.5, sight lost after day d at d + 0.75, asked at d + 0.6.
# Bars of D-calibration by the formula of Haider et al. 2020, point by point, and pchisq.
# Run: Rscript single_stays.R > single-stays.json   (Debian's r-cran-pec 2022.05.04, r-cran-survival 3.5-3)
suppressPackageStartupMessages({library(survival); library(pec)})
set.seed(20261129)
n <- 80
days <- 60
scale <- round(exp(rnorm(n, log(12), 0.5)), 2)
shape <- 1.3
said <- function(d) exp(-((d + 1) / scale)^shape)
end <- floor(scale * 1.2 * rexp(n)^(1 / 1.1))
seen <- floor(rexp(n, 1 / 25))
ended <- end <= seen
until <- pmin(end, seen, 200)
ended <- ended & until < days # what outlives the prediction is known to have done so, and no more
until <- pmin(until, days - 1)

at <- c(0, 3, 10, 20, 28, 35)
frame <- data.frame(time = until + ifelse(ended, 0.5, 0.75), status = as.numeric(ended))
brier <- pec(list(said = sapply(at, said)), formula = Hist(time, status) ~ 1, data = frame, times = at + 0.6,
             exact = FALSE, start = NULL, cens.model = "marginal", splitMethod = "none", reference = FALSE, verbose = FALSE)

bars <- rep(0, 10)
spread <- function(low, high) sapply(1:10, function(i) max(0, min(high, i / 10) - max(low, (i - 1) / 10)) / (high - low))
for (i in 1:n) {
  above <- if (until[i] == 0) 1 else exp(-(until[i] / scale[i])^shape)
  here <- exp(-((until[i] + 1) / scale[i])^shape)
  bars <- bars + if (ended[i]) spread(here, above) else spread(0, here)
}
chi <- sum((bars - n / 10)^2 / (n / 10))

join <- function(x) paste0("[", paste(sapply(x, function(one) format(one, digits = if (isTRUE(one == round(one, 2))) 15 else 17)), collapse = ", "), "]")
cat('{\n"made": "', R.version.string, ", pec ", format(packageVersion("pec")), '",\n', sep = "")
cat('"shape": 1.3, "days": 60,\n"scale": ', join(scale), ',\n"until": ', join(until), ',\n"ended": ', join(as.numeric(ended)), sep = "")
cat(',\n"at": ', join(at), ',\n"brier": ', join(brier$AppErr$said), ',\n"bars": ', join(bars), sep = "")
cat(',\n"chiSquared": ', format(chi, digits = 17), ',\n"probability": ', format(pchisq(chi, 9, lower.tail = FALSE), digits = 17), "\n}\n", sep = "")
