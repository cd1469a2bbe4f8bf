using Sandarac.Imaging.Formats;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

internal sealed class FetchedFile : IDisposable
{
    public Refusal? Refusal { get; private init; }

    public string Sha256 { get; private init; } = "";

    public static FetchedFile Known(string sha256) => new() { Sha256 = sha256 };

    public static FetchedFile Refused(Refusal refusal) => new() { Refusal = refusal };

    public static FetchedFile From(FoundFile file, OpenStudio studio, ImageLimits limits, CancellationToken cancellation) => throw new NotImplementedException($"{file}{studio}{limits}{cancellation}");

    public Photograph ToPhotograph(Guid paintingId, string name, DateTime now) => throw new NotImplementedException($"{paintingId}{name}{now}");

    public void Keep(StudioDb db, OpenStudio studio) => throw new NotImplementedException($"{db}{studio}");

    public void Dispose()
    {
    }
}
