using Sandarac.Imaging.Formats;
using Sandarac.Specimen.Output;
using Sandarac.Specimen.Tests.Drawing;

namespace Sandarac.Specimen.Tests.Output;

public class TiffFileTests
{
    [Fact]
    public void Roundtrip_through_another_reader_keeps_every_value_and_tag()
    {
        using var folder = new Folder();
        var path = Path.Combine(folder.Path, "a.tif");
        var exif = new ExifFacts("Brackwater", "BW-3", "A test", new DateTime(2024, 3, 12, 9, 30, 5), 0.125, 8, 100);
        ushort[] values = [.. Enumerable.Range(0, 70 * 130 * 3).Select(i => (ushort)(i * 977))];
        using (var file = new TiffFile(path, new TiffLayout(70, 130, 3, 2, false, 149.5, IccProfile.Srgb, exif)))
        {
            file.WriteRows<ushort>(64, values.AsSpan(64 * 210));
            file.WriteRows<ushort>(0, values.AsSpan(0, 64 * 210));
            file.Commit();
        }
        using var image = ImageFile.Open(path);
        var planes = image.ReadWindow(0, 0, 70, 130);
        for (var i = 0; i < 70 * 130; i++)
            for (var b = 0; b < 3; b++) Assert.Equal(values[3 * i + b], planes[b].Data[i]);
        Assert.Equal(149.5, image.Facts.Scale!.Value.PixelsPerInch, 3);
        Assert.Equal(exif.TakenAt, image.Facts.TakenAt);
        Assert.Equal("A test", image.Facts.Description);
        Assert.Contains("sRGB", image.Facts.IccDescription, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0, 0)]
    [InlineData(1.0, 65535)]
    [InlineData(0.18, 30235)]
    public void Known_sRGB_codes(double linear, int code) =>
        // IEC 61966-2-1: 1.055 x 0.18^(1/2.4) - 0.055 = 0.46136; times 65535. The table may be 2 codes off.
        Assert.InRange(Encoding16.Srgb.Encode((float)linear), code - 2, code + 2);
}
