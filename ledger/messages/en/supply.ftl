# When more of something comes: said with every item, so it stands apart from the labels of trees.
supply-by-season = as in earlier years, when it came on { LIST($list, type: "commas") }
supply-by-rhythm = it came every { $n } days or so since { DAY($day, style: "iso") }
supply-by-rhythm-waiting = it came every { $n } days or so, and { $n2 } have passed since { DAY($day, style: "iso") }
supply-on = { DAY($day, style: "iso") }
