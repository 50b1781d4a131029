"""The study: what can be shown of the estimate, on invented athletes and on open data, as one page that stands alone."""
