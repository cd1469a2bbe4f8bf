namespace Sandarac.Specimen.Output;

/// <summary>From linear light to 16-bit code values, through a table in the square root of the signal, where both curves are nearly
/// straight.</summary>
internal sealed class Encoding16
{
    private const int Steps = 4096;
    private readonly float[] _table;

    private Encoding16(Func<double, double> curve)
    {
        _table = new float[Steps + 2];
        for (var i = 0; i < _table.Length; i++) _table[i] = (float)(65535 * curve(Math.Min(1, Math.Pow((double)i / Steps, 2))));
    }

    /// <summary>IEC 61966-2-1.</summary>
    public static Encoding16 Srgb { get; } = new(ToSrgb);

    /// <summary>Power 1 / 2.2.</summary>
    public static Encoding16 Gamma22 { get; } = new(v => Math.Pow(v, 1 / 2.2));

    /// <summary>Encodes a linear signal; clips at 0 and 1, as a sensor does.</summary>
    public ushort Encode(float linear)
    {
        var t = MathF.Sqrt(Math.Clamp(linear, 0f, 1f)) * Steps;
        var i = (int)t;
        return (ushort)(_table[i] + (_table[i + 1] - _table[i]) * (t - i) + 0.5f);
    }

    /// <summary>sRGB code value (0-1) of linear light (0-1).</summary>
    public static double ToSrgb(double v) => v <= 0.0031308 ? 12.92 * v : 1.055 * Math.Pow(v, 1 / 2.4) - 0.055;

    /// <summary>Linear light (0-1) of an sRGB code value (0-1).</summary>
    public static double FromSrgb(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
}
