"""What is said of a turned outline."""
