# Aalen-Johansen with two causes: what R's survival::survfit says of mgus2 (monoclonal gammopathy; months to a plasma cell
# malignancy, or to death without one). Data: mgus2 of the R package survival (LGPL 2 or later); only counts of (month,
# ending) are kept. Months stand for days.
#   Rscript tests/golden/mgus2.R > tests/golden/mgus2.json
suppressMessages(library(survival))
months <- with(mgus2, ifelse(pstat == 0, futime, ptime))
ending <- with(mgus2, ifelse(pstat == 0, 2 * death, 1))
event <- factor(ending, 0:2, c("none", "malignancy", "death"))
fit <- survfit(Surv(months, event) ~ 1)
at <- c(6, 12, 60, 120, 240, 360)
told <- summary(fit, times = at)$pstate
num <- function(x) formatC(x, digits = 15, format = "g")
counts <- aggregate(n ~ months + ending, data.frame(months, ending, n = 1), sum)
counts <- counts[order(counts$months, counts$ending), ]
cat(sprintf('{\n  "source": "tests/golden/mgus2.R, %s, survival %s",\n', R.version.string, packageVersion("survival")))
cat(sprintf('  "stays": [%s],\n', paste(sprintf("[%d, %d, %d]", counts$months, counts$ending, counts$n), collapse = ", ")))
cat(sprintf('  "states": [%s]\n}\n',
            paste(sprintf("[%d, %s, %s, %s]", at, num(told[, 1]), num(told[, 2]), num(told[, 3])), collapse = ", ")))
