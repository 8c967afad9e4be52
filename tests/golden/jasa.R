# A waiting list on its real dates, and what exponential smoothing and ARIMA say of its counts.
# Data: `jasa` of R's `survival` 3.5-3 (LGPL 2 or later; Crowley and Hu 1977, JASA 72:27-36): 103 people accepted for an operation
# 1967 to 1974. Kept are three days each (accepted, operated, last seen; whole days since 1970) and whether they died.
# Forecasts: R's `forecast` 8.20, ets(model = "ANN") which is simple exponential smoothing, and auto.arima, each fitted anew
# on every seventh day to the counts up to that day; mean and sd at 1, 7, 28 and 90 days.
# Run: Rscript jasa.R > jasa.json   (Debian's r-cran-survival and r-cran-forecast; three minutes)
suppressPackageStartupMessages({library(survival); library(forecast)})
accepted <- as.numeric(jasa$accept.dt)
operated <- as.numeric(jasa$tx.date)
seen <- as.numeric(jasa$fu.date)
days <- min(accepted):(max(seen) - 1)
left <- ifelse(is.na(operated), seen, operated)
count <- list(
  waiting = sapply(days, function(d) sum(accepted <= d & left > d)),
  operated = sapply(days, function(d) sum(!is.na(operated) & operated <= d & seen > d))
)
horizons <- c(1, 7, 28, 90)
origins <- seq(min(days) + 364, max(days) - 1, 7)
said <- function(fit) {
  f <- forecast(fit, h = 90, level = 80)
  c(rbind(f$mean[horizons], ((f$upper - f$mean) / qnorm(0.9))[horizons]))
}
models <- list(smoothing = function(y) ets(y, model = "ANN"), arima = function(y) auto.arima(y))
number <- function(x) paste0("[", paste(sapply(signif(x, 6), format, digits = 6, scientific = FALSE), collapse = ","), "]")
rows <- function(model, y) paste(sapply(origins, function(o) number(said(model(y[days <= o])))), collapse = ",\n")
stays <- paste0("[", accepted, ",", ifelse(is.na(operated), "null", operated), ",", seen, ",", jasa$fustat, "]", collapse = ",\n")
cat('{\n"made": "', R.version.string, ", forecast ", format(packageVersion("forecast")), '",\n"stays": [\n', stays, "],\n", sep = "")
cat('"counts": {', paste0('"', names(count), '": ', sapply(count, number), collapse = ",\n"), "},\n", sep = "")
cat('"horizons": ', number(horizons), ',\n"origins": ', number(origins), ",\n", sep = "")
parts <- lapply(names(models), function(m) paste0('"', m, '": {', paste0('"', names(count), '": [\n', sapply(count, function(y) rows(models[[m]], y)), "]", collapse = ",\n"), "}"))
cat(paste(parts, collapse = ",\n"), "\n}\n", sep = "")
