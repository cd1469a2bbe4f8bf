using System.Globalization;
using Sandarac.Studio;
using Sandarac.Studio.Cleaning;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;
using static Sandarac.Server.Pages.Language.RecordText;

namespace Sandarac.Server.Pages.Cleaning;

/// <summary>How cleaning tests are told on the pages.</summary>
internal static class CleaningWords
{
    public static string Of(Passage passage) => passage switch { Passage.Light => Say("light passage"), Passage.Dark => Say("dark passage"), _ => Say("a particular colour") };

    public static string Of(CleaningDepth layer) => layer switch { CleaningDepth.Dirt => Say("dirt"), CleaningDepth.Varnish => Say("varnish"), CleaningDepth.Overpaint => Say("overpaint"), _ => Say("the painter's paint") };

    public static string Of(AgentKind kind) => kind switch { AgentKind.Solvent => Say("solvent or mixture"), AgentKind.Aqueous => Say("aqueous"), AgentKind.Dry => Say("dry"), _ => Say("other|agent") };

    public static string Of(TestEffect effect) => effect switch
    {
        TestEffect.None => Say("nothing seen"),
        TestEffect.Softened => Say("softened, dulled"),
        TestEffect.Reduced => Say("reduced"),
        TestEffect.Removed => Say("removed|test"),
        _ => Say("not stated"),
    };

    public static string Of(TestVerdict verdict) => verdict switch { TestVerdict.TooWeak => Say("too weak"), TestVerdict.AsIntended => Say("as intended"), TestVerdict.TooStrong => Say("too strong"), _ => Say("not judged") };

    /// <summary>Choices of a list, in the order of the enumeration.</summary>
    public static IReadOnlyList<(string Value, string Words)> Choices<T>(Func<T, string> words, params T[] without) where T : struct, Enum => [.. Enum.GetValues<T>().Except(without).Select(v => ($"{v}", words(v)))];

    public static string Seconds(double? seconds) => seconds is { } s ? Decimal(s.ToString("0.# s", CultureInfo.InvariantCulture)) : "-";

    /// <summary>What was written of a test, entry by entry, as its history shows it.</summary>
    public static Func<CleaningTestContent, IReadOnlyList<(string Label, string Value)>> Lines(OpenStudio studio, Painting painting)
    {
        var zones = new Zones(studio).Of(painting.Id).ToDictionary(z => z.Id, z => z.Name);
        using var db = studio.CreateDb();
        var files = db.Photographs.Where(p => p.PaintingId == painting.Id).Select(p => new { p.Id, p.FileName }).ToDictionary(p => p.Id, p => p.FileName);
        return c =>
        [
            (Say("zone"), c.ZoneId is { } zone ? zones.GetValueOrDefault(zone, Say("one that is not there any more")) : ""), (Say("place"), c is { X: { } x, Y: { } y } ? Told(Place.Text(x, y, painting.HeightMm)) : ""), (Say("passage"), Of(c.Passage)),
            (Say("to come off"), Of(c.Aim)), (Say("agent"), $"{AgentText.Of(c.Agent)} ({Of(c.AgentKind)})"), (Say("agent, further"), c.AgentNote), (Say("carrier"), c.Carrier), (Say("planned time"), Seconds(c.PlannedSeconds)),
            (Say("done on"), c.DoneOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""), (Say("done by"), c.DoneBy), (Say("time taken"), Seconds(c.Seconds)), (Say("on dirt"), Of(c.OnDirt)), (Say("on varnish"), Of(c.OnVarnish)),
            (Say("on overpaint"), Of(c.OnOverpaint)), (Say("on the painter's paint"), Of(c.OnOriginal)), (Say("swab"), c.SwabColour), (Say("paint on the swab"), c.SwabTookPaint switch { true => Say("yes"), false => Say("no"), _ => "" }),
            (Say("in ultraviolet"), c.UltravioletAfter), (Say("photographs"), string.Join(", ", c.Photographs.Select(p => files.GetValueOrDefault(p, "")))), (Say("verdict"), Of(c.Verdict)), (Say("note"), c.Note),
        ];
    }
}
