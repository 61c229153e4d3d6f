"""What is kept; knows nothing of chat, clock or network."""
