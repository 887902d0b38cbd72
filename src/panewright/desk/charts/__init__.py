"""Many panels on a chart: string Voc, joint pull, rating; when to stop and look."""
