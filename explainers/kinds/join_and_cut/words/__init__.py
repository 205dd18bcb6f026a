"""What is said of pieces, marks and slips."""
