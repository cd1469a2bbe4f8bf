using System.Collections.Concurrent;
using Sandarac.Imaging;
using Sandarac.Server.Api;
using Sandarac.Studio;

namespace Sandarac.Server.Tiles;

/// <summary>Layers by id and version, kept in memory: what a version shows never changes, so that a tile costs no look into the record.</summary>
internal sealed class LayerIndex(OpenStudio studio)
{
    private readonly ConcurrentDictionary<(string LayerId, string Version), Layer> _known = new();

    /// <summary>The layer, at the version asked for or, without one, as it is now.</summary>
    /// <exception cref="InputProblem">"unknown-layer"; "unknown-version": the layer has other pixels now.</exception>
    public Layer Find(string layerId, string? version)
    {
        if (version is not null && _known.TryGetValue((layerId, version), out var known)) return known;
        var layer = new Layers(studio).Find(layerId);
        var now = LayerShape.VersionOf(layer.Pyramid);
        if (version is not null && version != now)
            throw new InputProblem("unknown-version", version, "The layer has other pixels now.", "Load the painting again.");
        _known[(layerId, now)] = layer;
        return layer;
    }
}
