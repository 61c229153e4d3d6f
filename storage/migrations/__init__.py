"""Every schema there has been, and the way from each to the next."""
