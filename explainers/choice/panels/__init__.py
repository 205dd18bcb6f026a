"""What a teacher is shown of a question while it is written: panels of pictures on grids, with a few words each."""
