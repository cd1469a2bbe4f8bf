using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Documents;

/// <summary>A long report as PDF, DOCX and HTML, each in a process of its own.</summary>
internal sealed class DocumentsBenchmark : Benchmark
{
    public override string Name => "documents";

    public override string Summary => $"A report of 200 pages and {LongReport.Pictures} pictures as PDF, DOCX and HTML";

    public override IEnumerable<Figure> Run(Settings settings)
    {
        var pictures = settings.Quick ? 30 : LongReport.Pictures;
        foreach (var format in new[] { "pdf", "docx", "html" })
        {
            var child = Child.Ours("document", format, $"{pictures}", settings.Folder);
            var size = new FileInfo(Path.Combine(settings.Folder, $"long.{format}")).Length / 1e6;
            yield return new Figure($"{format}, {pictures} pictures", "s", Invariant.Number(child.Output)) { Limit = new Limit(30, false), Note = $"{size:0} MB" };
            yield return new Figure($"{format}, peak memory of the process", "MB", child.PeakMegabytes) { Limit = new Limit(1000, false) };
        }
    }
}
