"""What the customer sent, measured."""
