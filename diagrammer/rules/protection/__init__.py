"""Rules on overcurrent protection."""
