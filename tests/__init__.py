"""The tests mirror the source; see DEVELOPERS.md."""
