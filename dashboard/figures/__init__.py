"""Pictures: functions from a DataFrame to a plotly figure, in plain graph objects."""
