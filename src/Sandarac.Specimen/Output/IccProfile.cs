using System.Buffers.Binary;
using System.Text;

namespace Sandarac.Specimen.Output;

/// <summary>
/// Two small ICC version 2 profiles (ICC.1:2001-04): matrix-and-curve sRGB (primaries of IEC 61966-2-1 adapted to D50, as published
/// in the sRGB profile of the ICC) and grey with gamma 2.2.
/// </summary>
internal static class IccProfile
{
    public static byte[] Srgb { get; } = Build("RGB ", "sRGB, specimen", [
        ("rXYZ", Xyz(0.43607, 0.22249, 0.01392)), ("gXYZ", Xyz(0.38515, 0.71687, 0.09708)), ("bXYZ", Xyz(0.14307, 0.06061, 0.71410)),
        ("rTRC", SrgbCurve()), ("gTRC", SrgbCurve()), ("bTRC", SrgbCurve())]);

    public static byte[] Grey { get; } = Build("GRAY", "Grey gamma 2.2, specimen", [("kTRC", GammaCurve(2.2))]);

    private static byte[] Build(string space, string description, (string Tag, byte[] Data)[] tags)
    {
        (string Tag, byte[] Data)[] all =
            [("desc", Description(description)), ("cprt", Text("No copyright, use freely")), ("wtpt", Xyz(0.9642, 1, 0.8249)), .. tags];
        var body = new MemoryStream();
        var table = new MemoryStream();
        Write(table, (uint)all.Length);
        var start = 128 + 4 + 12 * all.Length;
        foreach (var (tag, data) in all)
        {
            Write(table, tag);
            Write(table, (uint)(start + body.Length));
            Write(table, (uint)data.Length);
            body.Write(data);
            while (body.Length % 4 != 0) body.WriteByte(0);
        }
        return [.. Header(space, (uint)(start + body.Length)), .. table.ToArray(), .. body.ToArray()];
    }

    private static byte[] Header(string space, uint size)
    {
        var h = new byte[128];
        BinaryPrimitives.WriteUInt32BigEndian(h, size);
        BinaryPrimitives.WriteUInt32BigEndian(h.AsSpan(8), 0x02400000);
        Encoding.ASCII.GetBytes("mntr" + space + "XYZ ").CopyTo(h, 12);
        foreach (var (i, v) in new ushort[] { 2024, 1, 1 }.Index()) BinaryPrimitives.WriteUInt16BigEndian(h.AsSpan(24 + 2 * i), v);
        Encoding.ASCII.GetBytes("acsp").CopyTo(h, 36);
        Xyz(0.9642, 1, 0.8249).AsSpan(8).CopyTo(h.AsSpan(68));
        return h;
    }

    private static byte[] Xyz(params double[] values) =>
        [.. Encoding.ASCII.GetBytes("XYZ \0\0\0\0"), .. values.SelectMany(v => Big((uint)(int)Math.Round(v * 65536)))];

    private static byte[] GammaCurve(double gamma) =>
        [.. Encoding.ASCII.GetBytes("curv\0\0\0\0"), .. Big(1), .. Big((uint)Math.Round(gamma * 256) << 16).Take(2)];

    private static byte[] SrgbCurve()
    {
        var points = Enumerable.Range(0, 1024).Select(i => (uint)Math.Round(65535 * Encoding16.FromSrgb(i / 1023.0)));
        return [.. Encoding.ASCII.GetBytes("curv\0\0\0\0"), .. Big(1024), .. points.SelectMany(p => Big(p << 16).Take(2))];
    }

    private static byte[] Text(string text) => [.. Encoding.ASCII.GetBytes("text\0\0\0\0" + text + "\0")];

    private static byte[] Description(string text) =>
        [.. Encoding.ASCII.GetBytes("desc\0\0\0\0"), .. Big((uint)text.Length + 1), .. Encoding.ASCII.GetBytes(text + "\0"),
            .. new byte[78]];

    private static byte[] Big(uint v)
    {
        var b = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(b, v);
        return b;
    }

    private static void Write(MemoryStream to, uint v) => to.Write(Big(v));

    private static void Write(MemoryStream to, string tag) => to.Write(Encoding.ASCII.GetBytes(tag));
}
