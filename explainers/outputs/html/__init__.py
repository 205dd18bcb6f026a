"""Pages: the deck that learners handle, the page of a folder, the prompter, the transcript."""
