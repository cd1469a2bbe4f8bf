namespace Sandarac.Imaging.Tiles;

/// <summary>How tiles hold their samples: the three depths that are shown, computed on and sent.</summary>
public enum TileFormat
{
    /// <summary>Unsigned 8-bit.</summary>
    UInt8,

    /// <summary>Unsigned 16-bit, little endian.</summary>
    UInt16,

    /// <summary>32-bit floating point, little endian; NaN is no-data.</summary>
    Float32,
}

internal static class TileFormats
{
    public static int Bytes(this TileFormat format) => format switch { TileFormat.UInt8 => 1, TileFormat.UInt16 => 2, _ => 4 };

    /// <summary>The largest value of the format; 1 for floats.</summary>
    public static double FullScale(this TileFormat format) => format switch { TileFormat.UInt8 => 255, TileFormat.UInt16 => 65535, _ => 1 };
}
