"""Plotly figures from plain data; no query, no Streamlit."""
