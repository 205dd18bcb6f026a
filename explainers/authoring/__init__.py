"""New files for a teacher to begin from: each builds as it is, and explains every key that its format has."""
