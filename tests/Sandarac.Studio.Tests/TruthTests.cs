using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;
using Sandarac.Specimen;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

/// <summary>An examination of the specimen never opens what only the specimen's maker can know: the operating system reports every opening.</summary>
public sealed partial class TruthTests(ITestOutputHelper output)
{
    private const uint Access = 0x1, Open = 0x20;

    [Theory]
    [InlineData("photographs", 0)]
    [InlineData("", 1)]
    public void Examining_the_specimen_opens_nothing_of_its_truth(string part, int refusals)
    {
        if (!OperatingSystem.IsLinux()) Assert.Skip("inotify is Linux's.");
        using var home = new TemporaryStudio();
        var specimen = Path.Combine(home.Root, "specimen");
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: ["VIS_01.tif", "IR_01.tif", "RAK_W_az270_el15.tif", "XR_plate1.tif"]), specimen, cancellation: TestContext.Current.CancellationToken);
        var truth = Path.Combine(specimen, "truth");
        using var watch = new SafeFileHandle(Init(0x800), ownsHandle: true);
        foreach (var folder in Directory.GetDirectories(truth, "*", SearchOption.AllDirectories).Prepend(truth))
            Assert.True(AddWatch(watch, folder, Access | Open) >= 0);
        var examination = new Examining(home.Studio).Examine(Path.Combine(specimen, part),
            new ExamineOptions { HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm }, cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(Events(watch));
        // The watch does report: opening one file shows.
        File.OpenRead(Directory.GetFiles(truth, "*", SearchOption.AllDirectories)[0]).Dispose();
        Assert.NotEmpty(Events(watch));
        foreach (var p in examination.Photographs) output.WriteLine($"{p.FileName}: {p.Light} {p.Subject} {p.Alignments.InForce()?.Verdict} {p.Alignments.InForce()?.Reason}");
        Assert.Equal(refusals, examination.Refusals.Count);
        Assert.All(examination.Refusals, r => Assert.Equal(("truth", "not-evidence"), (r.File, r.Code)));
        Assert.Contains(examination.Photographs, p => p.Light == "VIS" && p.Alignments.InForce()!.Verdict == Verdict.Aligned);
    }

    /// <summary>Names in the waiting events; the watched folder itself has an empty name.</summary>
    private static List<string> Events(SafeFileHandle watch)
    {
        List<string> names = [];
        var buffer = new byte[65536];
        while (Read(watch, buffer, buffer.Length) is > 0 and var length)
            for (var at = 0; at < length;)
            {
                var size = BitConverter.ToInt32(buffer, at + 12);
                names.Add(Encoding.UTF8.GetString(buffer, at + 16, size).TrimEnd('\0'));
                at += 16 + size;
            }
        return names;
    }

    [LibraryImport("libc", EntryPoint = "inotify_init1", SetLastError = true)]
    private static partial nint Init(int flags);

    [LibraryImport("libc", EntryPoint = "inotify_add_watch", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int AddWatch(SafeFileHandle watch, string path, uint mask);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    private static partial nint Read(SafeFileHandle file, byte[] buffer, nint count);
}
