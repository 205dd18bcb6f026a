"""What is true of the files that are checked: each item, each lesson, each series, with every fault."""
