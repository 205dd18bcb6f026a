"""What is true of the outline that is shown, and what to remember of its question."""
