using System.Globalization;
using Sandarac.Studio.Places;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Checks;

/// <summary>Occasions and answers as people say them.</summary>
internal static class CheckWords
{
    public static IReadOnlyList<(string Value, string Words)> Occasions => [.. Enum.GetValues<Occasion>().Select(o => ($"{o}", Of(o)))];

    public static IReadOnlyList<(string Value, string Words)> Standings => [.. Enum.GetValues<Standing>().Select(s => ($"{s}", Of(s)))];

    public static string Of(Occasion occasion) => Told(PlanWords.Of(occasion));

    public static string Of(Standing standing) => Plans.StateWords.Standing(standing);

    public static string Of(ZoneExtent? extent) => extent is null ? "-" : Findings.FindingWords.Area(extent);

    public static string Day(ConditionState state) => state.Content.On?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? Say("no day");

    public static string Moment(DateTime at) => at.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
