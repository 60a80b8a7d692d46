"""What people read: reports, pictures, and the plan as a file."""
