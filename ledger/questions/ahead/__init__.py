"""The stock ahead, below the questions: when more comes, how long it lasts, what was said of that before and what came."""
