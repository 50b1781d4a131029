"""Classes, results and reports."""
