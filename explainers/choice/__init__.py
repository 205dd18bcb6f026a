"""What every question with outlines as options has: an option laid on the outline, and what is true of it."""
