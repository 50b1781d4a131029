"""The walk through a sheet that gives each line its meaning, by what stands open above it and what follows. Pure."""
