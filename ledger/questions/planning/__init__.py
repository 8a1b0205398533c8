"""The plan of a season, below the questions: wants through recipes to raw produce, plants, beds and batches."""
