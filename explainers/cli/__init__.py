"""A thin door: parse words, call the rooms, print; one module a command."""
