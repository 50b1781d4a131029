"""What a member's max is, whether it holds, and how it got there."""
