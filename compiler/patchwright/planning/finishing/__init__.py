"""What comes after the top: binding, backing, batting, and what hangs or names a quilt; and how cloth is bought."""
