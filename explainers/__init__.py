"""From one short description of a join-and-cut outline question to a lesson that explains it."""
