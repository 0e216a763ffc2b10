"""The review page: one HTML file beside the clips, for whoever looks the episode over."""
