"""Peer of the benchmark 'build-up': the same steps with networkx, from a file with one "upper lower" a line. Prints seconds."""
import sys
import time

import networkx as nx

pairs = [tuple(map(int, line.split())) for line in open(sys.argv[1])]
start = time.perf_counter()
graph = nx.DiGraph(pairs)
for knot in nx.strongly_connected_components(graph):
    if len(knot) == 1:
        continue
    part = graph.subgraph(knot).copy()
    for upper, lower in part.edges:
        nx.shortest_path(part, lower, upper)
nx.transitive_reduction(nx.DiGraph(nx.condensation(graph).edges))
print(time.perf_counter() - start)
