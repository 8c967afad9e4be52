# Daily counts with a season and more scatter than chance: what R's MASS::glm.nb makes of them.
# Data: birdstrikes.csv of the npm package vega-datasets 3.2.1 (BSD-3-Clause), a 10,000-row extract of the public
# wildlife strike database of the United States' Federal Aviation Administration; only the count of each day is kept.
#   npm pack vega-datasets@3.2.1; tar xzf vega-datasets-3.2.1.tgz package/data/birdstrikes.csv
#   Rscript tests/golden/bird_strikes.R package/data/birdstrikes.csv > tests/golden/bird-strikes.json
suppressMessages(library(MASS))
strikes <- as.Date(read.csv(commandArgs(TRUE)[1], check.names = FALSE)[["Flight Date"]])
days <- seq(min(strikes), as.Date("2001-12-31"), by = "day")
count <- as.integer(table(factor(as.character(strikes), levels = as.character(days))))
t <- as.integer(days - days[1])
w <- 2 * pi * t / 365.25
weekend <- as.integer(format(days, "%u") >= 6)
fit <- function(y, keep) {
  m <- glm.nb(y ~ sin(w) + cos(w) + sin(2 * w) + cos(2 * w) + I(t / 365.25) + weekend, subset = keep,
              control = glm.control(epsilon = 1e-14, maxit = 200))
  # glm.nb stops theta at four digits; its own two steps in turn, to the end of double precision.
  for (i in 1:60) {
    g <- glm(formula(m), family = negative.binomial(m$theta), start = coef(m), subset = keep,
             control = glm.control(epsilon = 1e-15, maxit = 200))
    m$theta <- as.numeric(theta.ml(y[keep], fitted(g), limit = 500, eps = 1e-13))
    m$coefficients <- coef(g)
  }
  mu <- fitted(g)
  told <- sum(dnbinom(y[keep], size = m$theta, mu = mu, log = TRUE))
  errors <- sqrt(diag(vcov(g, dispersion = 1)))
  num <- function(x) paste0("[", paste(formatC(x, digits = 15, format = "g"), collapse = ", "), "]")
  sprintf('{ "coefficients": %s, "errors": %s, "theta": %s, "logLikelihood": %s }',
          num(coef(g)), num(errors), formatC(m$theta, digits = 15, format = "g"),
          formatC(told, digits = 15, format = "g"))
}
cat(sprintf('{\n  "source": "tests/golden/bird_strikes.R, %s, MASS %s",\n', R.version.string, packageVersion("MASS")))
cat(sprintf('  "first": "%s",\n  "counts": "%s",\n', days[1], paste(count, collapse = " ")))
cat(sprintf('  "all": %s,\n', fit(count, rep(TRUE, length(count)))))
cat(sprintf('  "firstTwoYears": %s\n}\n', fit(count, t < 730)))
