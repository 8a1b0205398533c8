# The help of the program itself.

root-about = Croftbook: what a household grows, puts up, stocks and eats, and what that costs.
root-own-words = Write down what happens, in your own words:
root-by-field = Or field by field:
root-ask = Ask what it means:
root-example-say = croftbook say picked 31 lb plums and two dozen eggs
root-end = The book is a file in your data folder, or --book, or the variable CROFTBOOK. `croftbook COMMAND --help` shows each command with examples.

# With nothing due: what to write, in the past.
root-own-words-past = Write down what happened, in your own words:
root-example-say-mill = croftbook say bought 10 lb sugar 7.90 at the mill yesterday
root-example-say-quoted = croftbook say "picked 31 lb plums and two dozen eggs"
root-example-say-bought = croftbook say "bought 10 lb sugar 7.90 at the mill yesterday"
root-example-say-ate = croftbook say "ate a jar of tomato sauce, 4 people" --dry-run
