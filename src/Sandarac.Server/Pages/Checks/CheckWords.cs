using System.Globalization;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Checks;

/// <summary>Occasions and answers as people say them.</summary>
internal static class CheckWords
{
    public static IReadOnlyList<(string Value, string Words)> Occasions =>
    [
        ("Examination", Say("examination")), ("BeforeTreatment", Say("before treatment")), ("DuringTreatment", Say("during treatment")), ("AfterTreatment", Say("after treatment")), ("Outgoing", Say("outgoing")), ("Incoming", Say("incoming")), ("Check", Say("check in between")),
    ];

    public static IReadOnlyList<(string Value, string Words)> Standings => [("Open", Say("not answered")), ("AsBefore", Say("as before")), ("Changed", Say("changed")), ("New", Say("new")), ("Gone", Say("gone"))];

    public static string Of(Occasion occasion) => Occasions.First(o => o.Value == $"{occasion}").Words;

    public static string Of(Standing standing) => Standings.First(s => s.Value == $"{standing}").Words;

    public static string Of(ZoneExtent? extent) => extent is null ? "-" : Findings.FindingWords.Area(extent);

    public static string Day(ConditionState state) => state.Content.On?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? Say("no day");

    public static string Moment(DateTime at) => at.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
