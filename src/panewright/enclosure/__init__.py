"""What closes a panel: encapsulant, back sheet, junction box with its diodes, leads."""
