"""What is known: pure functions of numbers or arrays, each formula declared once. Opens no file."""
