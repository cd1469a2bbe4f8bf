using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>What the steps of one examination share: the painting, what was said about it, what to tell the person, and progress.</summary>
internal sealed class ExamineSession(OpenStudio studio, string folder, ExamineOptions options, IProgress<ExamineProgress>? progress, CancellationToken cancellation)
{
    private readonly Lock _reporting = new();
    private double _done;

    public OpenStudio Studio { get; } = studio;

    /// <summary>Full path of the folder.</summary>
    public string Folder { get; } = Path.GetFullPath(folder);

    public ExamineOptions Options { get; } = options;

    public CancellationToken Cancellation { get; } = cancellation;

    /// <summary>The painting; null until the first photograph is stored.</summary>
    public Guid? PaintingId { get; set; }

    /// <summary>Lenses measured in calibration frames.</summary>
    public LensFrames Lenses { get; private set; } = new([], []);

    public List<Refusal> Refusals { get; } = [];

    public List<string> AlreadyThere { get; } = [];

    public List<Warning> Warnings { get; } = [];

    /// <summary>Measures the lenses of the frames that were given; what is to be known of them is told.</summary>
    public void MeasureLenses()
    {
        Lenses = LensFrames.Measure(Options.Lens, Cancellation);
        Warnings.AddRange(Lenses.Warnings);
    }

    /// <summary>Says how far the examination is; smaller figures than before are not shown.</summary>
    public void Report(string step, string item, double done)
    {
        lock (_reporting)
        {
            _done = Math.Max(_done, done);
            progress?.Report(new ExamineProgress(step, item, _done));
        }
    }

    /// <summary>A file is left out; the others go on.</summary>
    public void Refuse(Refusal refusal)
    {
        Refusals.Add(refusal);
        Report("refused", $"{refusal.File}: {refusal.Message} {refusal.Remedy}", 0);
    }

    /// <summary>Photographs with their alignments, by name.</summary>
    public IReadOnlyList<Photograph> Photographs(StudioDb db) => db.PhotographsOf(PaintingId!.Value);
}
