using Sandarac.Studio;

namespace Sandarac.Server;

/// <summary>What the server needs to know to start.</summary>
public sealed record ServerOptions
{
    /// <summary>The studio it serves; stays open as long as the server runs, and is the caller's to close.</summary>
    public required OpenStudio Studio { get; init; }

    /// <summary>TCP port on the loopback addresses; 0 takes any free one.</summary>
    public int Port { get; init; } = 5180;

    /// <summary>Where the built viewer lies (<c>easel.js</c>, <c>easel.css</c>); null for the one shipped with the program.</summary>
    public string? ViewerFolder { get; init; }

    /// <summary>Bytes of encoded tiles kept in memory.</summary>
    public long TileCacheBytes { get; init; } = 256L << 20;

    /// <summary>Tiles read and encoded at the same time; 0 for one a processor.</summary>
    public int TileWorkers { get; init; }

    /// <summary>Whether requests are logged to the console.</summary>
    public bool Verbose { get; init; }
}
