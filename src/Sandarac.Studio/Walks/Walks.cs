using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Walking;

namespace Sandarac.Studio;

/// <summary>Walks: guided sequences of views with captions.</summary>
public sealed partial class Walks(OpenStudio studio) : WrittenRecords<Walk, WalkContent>(studio, "walk")
{
    /// <summary>Nobody looks at more views in one go.</summary>
    private const int MostSteps = 500;

    /// <summary>Lower lamps would leave only the highest ridges lit, degrees.</summary>
    private const double LowestLamp = 2;

    /// <summary>A painting's walk by its title or its id.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="titleOrId">Its title, or its id.</param>
    /// <exception cref="InputProblem">"unknown-painting"; "unknown-walk": none is called so, or several are.</exception>
    public Walk Named(Guid paintingId, string titleOrId)
    {
        var walks = Of(paintingId);
        var found = walks.Where(w => string.Equals(w.Content.Title, titleOrId, StringComparison.OrdinalIgnoreCase) || string.Equals(w.Id.ToString(), titleOrId, StringComparison.OrdinalIgnoreCase)).ToList();
        if (found.Count == 1) return found[0];
        throw Wrong("unknown-walk", titleOrId, found.Count == 0 ? $"No walk of this painting is called \"{titleOrId}\"." : $"{found.Count} walks of this painting are called \"{titleOrId}\".",
            walks.Count == 0 ? "Make one on the Easel." : $"There are: {string.Join("; ", walks.Select(w => $"{w.Content.Title} ({w.Id})"))}.");
    }

    /// <summary>A walk with all that it shows found in the record as it stands, for whoever presents it.</summary>
    /// <exception cref="InputProblem">"unknown-walk"; it was taken out ("walk-deleted"); it is empty ("walk-empty"); nothing is on the plane ("nothing-aligned").</exception>
    public JsonObject Shown(Guid walkId)
    {
        var walk = Find(walkId);
        if (walk.DeletedAt is not null) throw Wrong("walk-deleted", walk.Content.Title, "This walk was taken out.", "Restore it first.");
        return WalkScript.Shown(WalkPlan.Read(Studio, walk.PaintingId, walk.Content));
    }

    private protected override Walk Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override WalkContent Checked(StudioDb db, Walk row, WalkContent content)
    {
        var title = Name("title", content.Title);
        if (!LanguageTag().IsMatch(content.Language)) throw Wrong("walk-language", "language", $"\"{content.Language}\" is not the tag of a language.", "Give one as BCP 47 writes them: en, es, pt-BR.");
        if (content.Steps.Count > MostSteps) throw Wrong("walk-too-long", "steps", $"A walk has at most {MostSteps} views.", "Make two of it.");
        var steps = content.Steps.Index().Select(s => Checked(s.Index + 1, s.Item)).ToList();
        if (steps.Select(s => s.Id).Distinct().Count() < steps.Count) throw Wrong("walk-step", "steps", "Two views have the same key.", "Give each a key of its own.");
        foreach (var zone in steps.SelectMany(s => s.Zones).Distinct()) Relations.RequireZone(db, row.PaintingId, zone);
        return content with { Title = title, Steps = steps };
    }

    /// <summary>A layer may go later, which must not keep anyone from mending a caption: that it is there is not asked.</summary>
    private static WalkStep Checked(int number, WalkStep? step)
    {
        InputProblem Bad(string what, string remedy) => Wrong("walk-step", $"view {number}", $"View {number} {what}.", remedy);
        if (step is null || step.Id == Guid.Empty) throw Bad("has no key", "Give each view a key of its own.");
        var (name, caption) = (step.Title?.Trim() ?? "", step.Caption ?? "");
        if (name.Length > 200 || caption.Length > 5000) throw Bad("has more words than anyone reads standing", "Keep a title under 200 letters and a caption under 5000.");
        foreach (var text in (string[])[name, caption]) Readable($"view {number}", text);
        if (!double.IsFinite(step.X) || !double.IsFinite(step.Y) || !(step.WidthMm > 0 && step.WidthMm < 1e6)) throw Bad("has no place", "Bring it onto the Easel and take it again.");
        if (!(step.Amount is >= 0 and <= 1)) throw Bad("puts the edge or the fade beyond the picture", "Give a share from 0 to 1.");
        if (!Enum.IsDefined(step.Compare)) throw Bad("is compared in an unknown way", "Choose one of the list.");
        if (!IsLayer(step.LayerA) || (step.LayerB is not null && !IsLayer(step.LayerB))) throw Bad("names no layer on the plane", "Put a layer that is on the plane on A, and on B one or none.");
        if (step.LampAzimuth.HasValue != step.LampElevation.HasValue || (step.LampAzimuth is { } a && !double.IsFinite(a)) || step.LampElevation is < LowestLamp or > 90 or double.NaN)
            throw Bad("has half a lamp, or one below the plane", $"Give azimuth and elevation, the latter from {LowestLamp} to 90 degrees, or neither.");
        return step with { Title = name, Caption = caption, Zones = [.. (step.Zones ?? []).Distinct()] };
    }

    private static bool IsLayer(string? id) => id is { Length: > 2 and < 200 } && (id.StartsWith("p-", StringComparison.Ordinal) || id.StartsWith("r-", StringComparison.Ordinal));

    /// <summary>BCP 47 (RFC 5646), as far as captions need it: a language and its subtags.</summary>
    [GeneratedRegex("^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$")]
    private static partial Regex LanguageTag();
}
