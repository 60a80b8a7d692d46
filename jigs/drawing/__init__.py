"""What is to be drawn, before any format: entities on four layers, in mm, y down."""
