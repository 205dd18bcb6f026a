"""What is seen at one moment of a timeline, and whether it was drawn before."""
