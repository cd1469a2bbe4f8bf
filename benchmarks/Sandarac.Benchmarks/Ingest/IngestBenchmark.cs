using System.ComponentModel;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Ingest;

/// <summary>
/// Taking in a scan of 20000 x 20000 pixels: our exact copy, hash and pyramid, beside libvips' pyramid of the same file with the same settings, then
/// sha256sum. The peer makes no copy. Both find the scan in the system's cache; both start with nothing waiting to be written.
/// </summary>
internal sealed class IngestBenchmark : Benchmark
{
    private sealed record Times(double Seconds, double Flushing, double? Peak);

    public override string Name => "ingest";

    public override string Summary => "copy, hash and pyramid of a large 16-bit scan, beside libvips' pyramid and sha256sum, each in a process of its own";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var size = settings.Quick ? 4000 : 20000;
        var (scan, copy, pyramid) = (Path.Combine(settings.Folder, "scan.tif"), Path.Combine(settings.Folder, "copy"), Path.Combine(settings.Folder, "pyramid.tif"));
        Say($"writing a scan of {size} x {size}");
        LargeScan.Write(scan, size);
        IngestWork.Flush(scan);
        var installed = InstalledVersion();
        var peer = (installed ?? $"libvips {LibvipsWork.Version}, as shipped") + ", then sha256sum";
        var (theirs, ours) = Rounds.Alternate(settings.Quick ? 1 : 3, () => Peer(installed is not null, scan, pyramid), () => Ours(scan, copy, pyramid));
        var what = $"ingest of {size} x {size} RGB 16-bit";
        yield return Compare(what, peer, ours, theirs, t => t.Seconds);
        yield return Compare(what + ", flushed to disk", peer, ours, theirs, t => t.Seconds + t.Flushing);
        yield return new Figure(what + ", peak memory", "MB", ours.Max(t => t.Peak)) { Peer = theirs.Max(t => t.Peak), PeerName = peer, Limit = new Limit(1500, false) };
    }

    private static Figure Compare(string what, string peer, IReadOnlyList<Times> ours, IReadOnlyList<Times> theirs, Func<Times, double> time) =>
        new(what, "s", Rounds.Median(ours.Select(time)))
        {
            Peer = Rounds.Median(theirs.Select(time)),
            PeerName = peer,
            Limit = new Limit(1.2, true),
            Note = $"rounds {Each(ours.Select(time))}, peer {Each(theirs.Select(time))}",
        };

    private static string Each(IEnumerable<double> seconds) => string.Join(" ", seconds.Select(s => $"{s:0.0}"));

    private static Times Ours(string scan, string copy, string pyramid)
    {
        var child = Child.Ours("ingest", scan, copy, pyramid);
        File.Delete(copy);
        File.Delete(pyramid);
        var flushing = Invariant.Number(child.Output);
        return new Times(child.Seconds - flushing, flushing, child.PeakMegabytes);
    }

    private static Times Peer(bool installed, string scan, string pyramid)
    {
        var saved = installed ? Child.Run(Child.Of("vips", LibvipsWork.Command(scan, pyramid))) : Child.Ours("libvips", scan, pyramid);
        var hashed = Child.Run(Child.Of("sha256sum", scan));
        var flushing = IngestWork.Flush(pyramid);
        File.Delete(pyramid);
        return new Times(saved.Seconds + hashed.Seconds, flushing, saved.PeakMegabytes);
    }

    /// <summary>Debian's libvips-tools, when it is there.</summary>
    private static string? InstalledVersion()
    {
        try
        {
            return "Debian's " + Child.Run(Child.Of("vips", "--version")).Output.Trim().Replace("vips-", "libvips ");
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
