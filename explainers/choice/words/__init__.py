"""What is said of options."""
