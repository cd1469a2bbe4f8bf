using System.Runtime.Intrinsics;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Cameras;

/// <summary>Radiance that leaves a place on the plane (mm) towards the camera, relative to a white that fills the scale; in R, G, B or in
/// the first element.</summary>
internal delegate Vector128<float> Radiance(float x, float y);

/// <summary>Irradiance at a place (mm) relative to the plane's centre: how the lamps fall off.</summary>
internal delegate float LampField(float x, float y);

/// <summary>One photograph to be taken.</summary>
internal sealed record Exposure
{
    /// <summary>File name with suffix.</summary>
    public required string FileName { get; init; }

    /// <summary>Code of the light.</summary>
    public required string Light { get; init; }

    /// <summary>What is in the frame: Painting, Chart, FlatField, Sample.</summary>
    public required string Subject { get; init; }

    public required Pose Pose { get; init; }

    public required double PixelsPerInch { get; init; }

    /// <summary>3 for colour, 1 for grey.</summary>
    public int Bands { get; init; } = 3;

    /// <summary>Factor from radiance to the sensor's full scale.</summary>
    public float Gain { get; init; } = 0.85f;

    /// <summary>Light lost in the corners of the frame, 0 to 1, growing with the fourth power of cos.</summary>
    public float Vignette { get; init; } = 0.10f;

    /// <summary>Standard deviation of the point-spread function, pixels.</summary>
    public float BlurPixels { get; init; } = 0.55f;

    /// <summary>Samples of the scene along each side of a pixel: 1 for a scene that is a picture itself, more for one with hard edges.</summary>
    public int Fineness { get; init; } = 1;

    /// <summary>Electrons at full scale: shot noise is its square root.</summary>
    public float FullWell { get; init; } = 60_000;

    /// <summary>Read noise, electrons.</summary>
    public float ReadNoise { get; init; } = 6;

    /// <summary>How well the sensor's own colours agree with sRGB: rows give R, G, B of the file from those of the scene. Null for
    /// exact.</summary>
    public float[]? ColourMatrix { get; init; }

    public LampField Lamps { get; init; } = (_, _) => 1;

    public double? LampAzimuth { get; init; }

    public double? LampElevation { get; init; }

    public required ExifFacts Exif { get; init; }

    public byte[] Icc => Bands == 3 ? IccProfile.Srgb : IccProfile.Grey;

    public Encoding16 Encoding => Bands == 3 ? Encoding16.Srgb : Encoding16.Gamma22;
}
