"""Plain functions, run in a process of its own that ends when nothing more is wanted of it.

What is large and seldom wanted is loaded there and nowhere else, so that the
process that lives for months stays small; and what crashes or hangs there
ends nothing here.
"""
