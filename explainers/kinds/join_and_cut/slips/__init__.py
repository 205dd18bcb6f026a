"""Named slips: the outline that a learner gets by one particular mistake. One module a slip; never a sentence."""
