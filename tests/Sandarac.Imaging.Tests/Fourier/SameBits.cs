using System.Diagnostics;
using System.Runtime.InteropServices;
using Sandarac.Imaging.Fourier;

namespace Sandarac.Imaging.Tests.Fourier;

/// <summary>The same numbers on every processor: this test starts itself in a process that is told to do without wide vectors.</summary>
public class SameBits
{
    private const string Request = "SANDARAC_TEST_BITS";

    [Fact]
    public void Bits_are_the_same_whatever_the_width_of_the_vectors()
    {
        var ours = Bits();
        if (Environment.GetEnvironmentVariable(Request) is { } asked)
        {
            File.WriteAllBytes(asked, ours);
            return;
        }
        var folder = Directory.CreateTempSubdirectory();
        try
        {
            foreach (var without in (string[])["DOTNET_EnableAVX", "DOTNET_EnableHWIntrinsic"])
                Assert.Equal(ours, BitsOfProcessWithout(without, Path.Combine(folder.FullName, without)));
        }
        finally
        {
            folder.Delete(true);
        }
    }

    private static byte[] BitsOfProcessWithout(string feature, string file)
    {
        var program = Path.ChangeExtension(typeof(SameBits).Assembly.Location, OperatingSystem.IsWindows() ? ".exe" : null);
        var start = new ProcessStartInfo(program, ["-class", typeof(SameBits).FullName!]) { RedirectStandardOutput = true };
        (start.Environment[feature], start.Environment[Request]) = ("0", file);
        using var process = Process.Start(start)!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return File.ReadAllBytes(file);
    }

    private static byte[] Bits()
    {
        var bits = new List<byte>();
        foreach (var (w, h) in new[] { (100, 77), (211, 113), (49, 9), (256, 130) })
        {
            var spectrum = PlaneFourier.Forward(Planes.Random(w, h));
            foreach (var values in (float[][])[spectrum.Re, spectrum.Im, PlaneFourier.Inverse(spectrum).Data])
                bits.AddRange(MemoryMarshal.AsBytes(values.AsSpan()));
        }
        return [.. bits];
    }
}
