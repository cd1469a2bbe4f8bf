namespace Sandarac.Imaging.Tiff;

/// <summary>The tags used here. TIFF 6.0 (Aldus 1992); SubIFDs from TIFF Technical Note 1; the ICC profile's from ICC.1; EXIF from EXIF 2.3.</summary>
internal static class TiffTag
{
    public const int
        NewSubfileType = 254, ImageWidth = 256, ImageLength = 257, BitsPerSample = 258, Compression = 259, Photometric = 262, ImageDescription = 270,
        Make = 271, Model = 272, StripOffsets = 273, Orientation = 274, SamplesPerPixel = 277, RowsPerStrip = 278, StripByteCounts = 279,
        XResolution = 282, YResolution = 283, PlanarConfiguration = 284, ResolutionUnit = 296, TileWidth = 322, TileLength = 323, TileOffsets = 324,
        TileByteCounts = 325, SubIfds = 330, ExtraSamples = 338, SampleFormat = 339, ExifIfd = 34665, IccProfile = 34675, ExifTakenAt = 36867,
        DngVersion = 50706;
}
