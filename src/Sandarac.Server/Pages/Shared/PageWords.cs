using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Shared;

/// <summary>Words of the pages alone; what documents say too is in <see cref="Studio.Documents.Words"/>.</summary>
internal static class PageWords
{
    /// <summary>How sure a guess is.</summary>
    public static string Sure(Confidence confidence) => confidence switch
    {
        Confidence.Certain => Say("sure|light"),
        Confidence.Probable => Say("likely|light"),
        _ => Say("a guess"),
    };

    /// <summary>How a photograph came onto the plane.</summary>
    public static string Method(string method) => method switch
    {
        AlignmentMethod.Found => Say("by its corners, found"),
        AlignmentMethod.ByHand => Say("by its corners, set by hand"),
        AlignmentMethod.WholeFrame => Say("the whole frame is taken as the painted face"),
        AlignmentMethod.Matched => Say("by what it shares with another photograph"),
        AlignmentMethod.Jointly => Say("together with others, by what they share"),
        AlignmentMethod.ByPairs => Say("by point pairs, set by hand"),
        AlignmentMethod.None => "",
        _ => method,
    };

    /// <summary>What a run's state is called.</summary>
    public static string State(RunState state) => state switch
    {
        RunState.Queued => Say("waiting"),
        RunState.Running => Say("running"),
        RunState.Done => Say("done"),
        RunState.NoAnswer => Say("no answer"),
        RunState.Cancelled => Say("cancelled, nothing kept"),
        RunState.Failed => Say("failed, nothing kept"),
        _ => Say("interrupted, nothing kept"),
    };

    /// <summary>"2026-05-04 14:03", in this machine's time.</summary>
    public static string Time(DateTime utc) => utc.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
