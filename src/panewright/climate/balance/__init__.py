"""The heat that flows through a panel in steady weather, layer by layer, to air, sky and ground."""
