"""Charts and drawings: pure functions that never import Streamlit."""
