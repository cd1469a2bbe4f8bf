using Sandarac.Imaging;

namespace Sandarac.Studio.Documents.Model;

/// <summary>A picture that is made only when it is written, so that a long document needs no more memory than a short one.</summary>
/// <param name="Width">Width; pixels of a raster, units of a drawing. Only the ratio to the height counts.</param>
/// <param name="Height">Height.</param>
public abstract record Picture(double Width, double Height);

/// <summary>A photograph or the raster of a reading.</summary>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
/// <param name="Encode">Makes a JPEG or PNG whose longer side is at most so many pixels; an <see cref="InputProblem"/> says why it cannot be shown.</param>
public sealed record RasterPicture(double Width, double Height, Func<int, byte[]> Encode) : Picture(Width, Height)
{
    /// <summary>The encoded picture, or why there is none: a document says so in its place and goes on.</summary>
    /// <param name="longest">Pixels of the longer side.</param>
    /// <param name="problem">Why there is none; null when there is one.</param>
    public byte[] Read(int longest, out string? problem)
    {
        try
        {
            var bytes = Encode(longest);
            problem = TypeOf(bytes) is null ? "The picture is neither JPEG nor PNG." : null;
            return problem is null ? bytes : [];
        }
        catch (Exception e) when (e is InputProblem or IOException or UnauthorizedAccessException)
        {
            problem = e is InputProblem { Remedy: var remedy } ? $"{e.Message} {remedy}" : e.Message;
            return [];
        }
    }

    /// <summary>"image/jpeg", "image/png" by the first bytes; null for anything else.</summary>
    public static string? TypeOf(ReadOnlySpan<byte> bytes) => bytes switch
    {
        [0xFF, 0xD8, 0xFF, ..] => "image/jpeg",
        [0x89, 0x50, 0x4E, 0x47, ..] => "image/png",
        _ => null,
    };
}

/// <summary>A drawing: sections, build-up, plan.</summary>
/// <param name="Width">Width as it is meant to be seen, in units of 1/96 inch.</param>
/// <param name="Height">Height, the same.</param>
/// <param name="Svg">Gives the drawing as one SVG element without scripts, styles or addresses outside itself.</param>
public sealed record DrawingPicture(double Width, double Height, Func<string> Svg) : Picture(Width, Height);
