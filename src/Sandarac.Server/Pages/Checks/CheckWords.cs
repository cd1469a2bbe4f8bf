using System.Globalization;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages.Checks;

/// <summary>Occasions and answers as people say them.</summary>
internal static class CheckWords
{
    public static IReadOnlyList<(string Value, string Words)> Occasions { get; } =
    [
        ("Examination", "examination"), ("BeforeTreatment", "before treatment"), ("DuringTreatment", "during treatment"), ("AfterTreatment", "after treatment"), ("Outgoing", "outgoing"), ("Incoming", "incoming"), ("Check", "check in between"),
    ];

    public static IReadOnlyList<(string Value, string Words)> Standings { get; } = [("Open", "not answered"), ("AsBefore", "as before"), ("Changed", "changed"), ("New", "new"), ("Gone", "gone")];

    public static string Of(Occasion occasion) => Occasions.First(o => o.Value == $"{occasion}").Words;

    public static string Of(Standing standing) => Standings.First(s => s.Value == $"{standing}").Words;

    public static string Of(StatedArea? area) => area is null ? "-" : string.Create(CultureInfo.InvariantCulture, $"{area.Mm2:0.#} mm2 ± {area.Uncertainty:0.#}");

    public static string Day(ConditionState state) => state.Content.On?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "no day";

    public static string Moment(DateTime at) => at.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
