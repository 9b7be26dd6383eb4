# The computed rows of pair-match.tsv.  R 4.2.2, datasets::sleep of the same.  Prints; the tests do not run it.
options (digits = 12)
first <- sleep$extra[sleep$group == 1]
second <- sleep$extra[sleep$group == 2]
print (t.test (first, second, paired = TRUE))
print (t.test (first, second))
left <- c (6.02, 5.98, 6.01, 5.97, 6.03, 5.99, 6.00, 6.02)
right <- c (5.98, 5.97, 5.96, 5.95, 6.00, 5.98, 5.95, 6.00)
print (t.test (left, right, paired = TRUE))
d <- left - right
print (mean (d) + c (-1.96, 1.96) * sd (d))
odd <- c (6.00, 6.01, 5.99, 6.02, 5.98, 6.25)
print (c (median (odd), mad (odd, constant = 1), max (abs (odd - median (odd))) / mad (odd)))
for (test in list (t.test (first, second, paired = TRUE), t.test (first, second)))
  print (c (test$statistic, test$parameter, test$p.value, test$conf.int, test$estimate))
