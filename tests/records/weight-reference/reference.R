# Reference values for the weight statistics, from R and real series of weights. Prints JSON.
# Series: ChickWeight (Crowder and Hand 1990, R package datasets), BodyWeight of rats (Crowder and Hand 1990,
# R package nlme) and wtloss (Venables and Ripley, R package MASS). Kendall's test is R's own cor.test; the slope is
# the median of all pairwise slopes from outer(); the limits follow Gilbert 1987 with R's own order statistics.
suppressPackageStartupMessages({ library(MASS); library(nlme) })

number <- function(x) ifelse(is.na(x), "null", format(x, digits = 15, scientific = TRUE))
numbers <- function(x) paste0("[", paste(format(x, digits = 15, trim = TRUE), collapse = ","), "]")

measure <- function(t, y) {
  rise <- outer(y, y, "-"); span <- outer(t, t, "-")
  later <- lower.tri(rise) & span != 0
  slopes <- sort(rise[later] / span[later])
  s <- sum(sign(rise[later]))
  slope <- median(slopes)
  ties <- table(y)
  n <- length(y)
  variance <- (n * (n - 1) * (2 * n + 5) - sum(ties * (ties - 1) * (2 * ties + 5))) / 18
  c95 <- qnorm(0.975) * sqrt(variance)
  at <- function(rank) approx(seq_along(slopes), slopes, rank)$y
  normal <- suppressWarnings(cor.test(t, y, method = "kendall", exact = FALSE, continuity = TRUE))
  exact <- if (any(duplicated(y)) || any(duplicated(t)) || n >= 50) NA
           else cor.test(t, y, method = "kendall", exact = TRUE)$p.value
  c(slope = slope, intercept = median(y - slope * t),
    low = at((length(slopes) - c95) / 2), high = at((length(slopes) + c95) / 2 + 1),
    s = s, variance = variance, z = unname(normal$statistic), p = normal$p.value, exactP = exact)
}

one <- function(name, source, t, y) {
  object <- function(m) paste0("{", paste0("\"", names(m), "\":", sapply(m, number), collapse = ","), "}")
  first <- seq_len(min(8, length(y)))
  paste0("{\"name\":\"", name, "\",\"source\":\"", source, "\",\"times\":", numbers(t), ",\"masses\":", numbers(y),
    ",\"onMass\":", object(measure(t, y)), ",\"onLogarithm\":", object(measure(t, log(y))),
    ",\"firstEight\":", object(measure(t[first], y[first])), "}")
}

chicks <- lapply(as.character(c(1:7, 9:11)), function(chick) {
  rows <- ChickWeight[ChickWeight$Chick == chick, ]
  one(paste("chick", chick), "datasets::ChickWeight", rows$Time, rows$weight)
})
rats <- lapply(as.character(1:16), function(rat) {
  rows <- BodyWeight[BodyWeight$Rat == rat, ]
  one(paste("rat", rat), "nlme::BodyWeight", rows$Time, rows$weight)
})
loss <- wtloss[!duplicated(wtloss$Days), ]
cat("{\"madeWith\":\"", R.version.string, ", nlme ", as.character(packageVersion("nlme")), ", MASS ",
  as.character(packageVersion("MASS")), "\",\n\"series\":[\n", sep = "")
cat(paste(c(unlist(chicks), unlist(rats), one("weight loss", "MASS::wtloss, first weighing of a day", loss$Days, loss$Weight)),
  collapse = ",\n"))
cat("\n]}\n")
