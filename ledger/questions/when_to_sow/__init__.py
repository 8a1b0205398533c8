"""The question when to sow and set out, by the frosts that the household wrote down."""
