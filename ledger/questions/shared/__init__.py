"""What several questions share: answers and trees, standings of batches, jars, keeping, seeds, ways of putting up."""
