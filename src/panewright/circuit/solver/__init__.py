"""The circuit solved number by number: functions that run as written, or compiled where many are asked."""
