"""What is true of an item: placements, the result, verdicts on the options, and facts that can be recomputed."""
