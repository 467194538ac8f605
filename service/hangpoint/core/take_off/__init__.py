"""What a job of hang points is made of: pieces, lengths, volumes, minutes, bars of rod, packages."""
