using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Sections.Aligning;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;

namespace Sandarac.Analysis.Sections;

/// <summary>A section's micrographs on one grid, brought down by a whole factor, as channels in which distances are felt alike: CIELAB of each colour image, lightness of each grey one.</summary>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
/// <param name="Factor">Pixels of the files along a side of one of these.</param>
/// <param name="Channels">The channels, visible light's first.</param>
/// <param name="Linear">The same images as linear light of the sRGB primaries; one plane for a grey one.</param>
internal sealed record Micrographs(int Width, int Height, int Factor, IReadOnlyList<float[]> Channels, IReadOnlyList<Plane[]> Linear)
{
    /// <summary>Strata are looked for at this size; their boundaries are then followed at full size.</summary>
    private const int LongestSide = 1600;

    private const int CurveSteps = 4096;

    private static readonly float[] Light = [.. Enumerable.Range(0, CurveSteps + 1).Select(i => (float)Srgb.ToLight((double)i / CurveSteps))];

    /// <summary>Whether all of them show a pixel; null when they do everywhere.</summary>
    private readonly bool[]? _shown = Shown(Linear);

    /// <summary>Whether all images show a pixel, counted row by row.</summary>
    public bool IsShown(int at) => _shown is null || _shown[at];

    /// <summary>The channels that tell the strata's direction: where an image ends within the visible one, only that one's, for its border would be taken for a stratum's.</summary>
    public IReadOnlyList<float[]> Everywhere => _shown is null ? Channels : [.. Channels.Take(Linear[0].Length)];

    /// <summary>Reads them.</summary>
    public static Micrographs Of(IReadOnlyList<PlacedMicrograph> images, RunContext context)
    {
        var reduced = images.Select(i => i.Reduced(LongestSide, context)).ToArray();
        var (width, height) = (reduced[0].Planes[0].Width, reduced[0].Planes[0].Height);
        Plane[][] linear = [.. reduced.Select(r => ToLight(r.Planes))];
        return new Micrographs(width, height, reduced[0].Factor, [.. linear.SelectMany(l => ToChannels(l, context.Workers))], linear);
    }

    /// <summary>Linear light of a part of a micrograph; NaN where it shows nothing.</summary>
    public static Plane[] LightOf(PlacedMicrograph image, int left, int top, int width, int height) => ToLight(image.Read(left, top, width, height));

    /// <summary>The colour of linear light, of one band or three.</summary>
    public static CieLab Lab(IReadOnlyList<double> light) => light.Count == 3 ? CieLab.FromLinear(light[0], light[1], light[2]) : CieLab.FromLinear(light[0], light[0], light[0]);

    /// <summary>The same in words; null where it has none.</summary>
    public static ColourName? Named(IReadOnlyList<double> light) => light.Count == 3 ? ColourName.FromLinear(light[0], light[1], light[2]) : ColourName.FromLinear(light[0], light[0], light[0]);

    /// <summary>Linear light of encoded bands: colour, or the first band of anything else.</summary>
    private static Plane[] ToLight(Plane[] bands) => [.. bands.Take(bands.Length >= 3 ? 3 : 1).Select(b => b.Select(v => float.IsNaN(v) ? v : Light[(int)(Math.Clamp(v, 0, 1) * CurveSteps + 0.5f)]))];

    private static bool[]? Shown(IReadOnlyList<Plane[]> light) => light.All(bands => bands.All(b => !b.Data.Any(float.IsNaN))) ? null
        : [.. Enumerable.Range(0, light[0][0].Data.Length).Select(i => light.All(bands => bands.All(b => !float.IsNaN(b.Data[i]))))];

    /// <summary>CIELAB planes of colour, the lightness of grey.</summary>
    public static float[][] ToChannels(IReadOnlyList<Plane> light, ParallelOptions workers)
    {
        float[][] channels = [.. light.Select(b => new float[b.Data.Length])];
        var colour = light.Count == 3;
        Parallel.For(0, light[0].Height, workers, y =>
        {
            for (var i = y * light[0].Width; i < (y + 1) * light[0].Width; i++)
            {
                var lab = colour ? CieLab.FromLinear(light[0].Data[i], light[1].Data[i], light[2].Data[i]) : CieLab.FromLinear(light[0].Data[i], light[0].Data[i], light[0].Data[i]);
                channels[0][i] = (float)lab.L;
                if (colour) (channels[1][i], channels[2][i]) = ((float)lab.A, (float)lab.B);
            }
        });
        return channels;
    }
}
