using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Shared;

/// <summary>Words of the pages alone; what documents say too is in <see cref="Studio.Documents.Words"/>.</summary>
internal static class PageWords
{
    /// <summary>"1 photograph", "18 photographs".</summary>
    public static string Count(int n, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many ?? one + "s")}");

    /// <summary>How sure a guess is.</summary>
    public static string Sure(Confidence confidence) => confidence switch
    {
        Confidence.Certain => "sure",
        Confidence.Probable => "likely",
        _ => "a guess",
    };

    /// <summary>How a photograph came onto the plane.</summary>
    public static string Method(string method) => method switch
    {
        AlignmentMethod.Found => "by its corners, found",
        AlignmentMethod.ByHand => "by its corners, set by hand",
        AlignmentMethod.WholeFrame => "the whole frame is taken as the painted face",
        AlignmentMethod.Matched => "by what it shares with another photograph",
        AlignmentMethod.Jointly => "together with others, by what they share",
        AlignmentMethod.ByPairs => "by point pairs, set by hand",
        AlignmentMethod.None => "",
        _ => method,
    };

    /// <summary>What a run's state is called.</summary>
    public static string State(RunState state) => state switch
    {
        RunState.Queued => "waiting",
        RunState.Running => "running",
        RunState.Done => "done",
        RunState.NoAnswer => "no answer",
        RunState.Cancelled => "cancelled, nothing kept",
        RunState.Failed => "failed, nothing kept",
        _ => "interrupted, nothing kept",
    };

    /// <summary>"2026-05-04 14:03", in this machine's time.</summary>
    public static string Time(DateTime utc) => utc.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
