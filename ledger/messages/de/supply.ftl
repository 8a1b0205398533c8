# When more of something comes: said with every item, so it stands apart from the labels of trees.
supply-by-season = wie in früheren Jahren, als es kam am { LIST($list, type: "commas") }
supply-by-rhythm = es kam etwa alle { $n } Tage, zuletzt am { DAY($day) }
supply-by-rhythm-waiting = es kam etwa alle { $n } Tage, und { $n2 } sind vergangen seit { DAY($day) }
supply-on = { DAY($day) }
