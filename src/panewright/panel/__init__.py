"""An order becomes a design: things and joined things judge, this room ranks and picks."""
