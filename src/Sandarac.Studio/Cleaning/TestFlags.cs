using System.Globalization;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>What is to be noticed about a test.</summary>
/// <param name="Code">"went-further", "touched-original", "swab-took-paint", "longer-than-planned", "verdict-against-effects", "no-ultraviolet".</param>
/// <param name="Message">It, in words.</param>
public sealed record TestFlag(string Code, string Message);

/// <summary>Tells from what was seen whether a test went further than planned. What was not seen proves nothing: no flag is no all-clear.</summary>
public static class TestFlags
{
    /// <summary>What is to be noticed about a test; none while it is only planned.</summary>
    public static IReadOnlyList<TestFlag> Of(CleaningTestContent test) => test.DoneOn is null ? [] :
    [
        .. Beyond(test).Select(layer => new TestFlag(layer == CleaningDepth.Original ? "touched-original" : "went-further",
            $"It went further than planned: {Word(EffectOn(test, layer))} {Word(layer)}, while only {Word(test.Aim)} was to come off.")),
        .. test.SwabTookPaint == true ? [new TestFlag("swab-took-paint", "The swab took colour of the paint: stop, and look at what was touched.")] : Array.Empty<TestFlag>(),
        .. test is { Seconds: { } took, PlannedSeconds: { } planned } && took > planned ? [new TestFlag("longer-than-planned", string.Create(CultureInfo.InvariantCulture, $"It acted for {took:0.#} s, {planned:0.#} s were planned."))] : Array.Empty<TestFlag>(),
        .. test.Verdict == TestVerdict.AsIntended && WentFurther(test) ? [new TestFlag("verdict-against-effects", "It is judged as intended, but it went further than planned.")] : Array.Empty<TestFlag>(),
        .. test.Verdict == TestVerdict.AsIntended && !Acts(EffectOn(test, test.Aim)) ? [new TestFlag("verdict-against-effects", $"It is judged as intended, but nothing says that it acted on {Word(test.Aim)}.")] : Array.Empty<TestFlag>(),
        .. test.UltravioletAfter.Length == 0 ? [new TestFlag("no-ultraviolet", "Nobody noted what the spot looks like in ultraviolet.")] : Array.Empty<TestFlag>(),
    ];

    /// <summary>Whether something below what was to come off was acted on, or paint came away with the swab.</summary>
    public static bool WentFurther(CleaningTestContent test) => Beyond(test).Any() || test.SwabTookPaint == true;

    /// <summary>What it did to a layer.</summary>
    public static TestEffect EffectOn(CleaningTestContent test, CleaningDepth layer) => layer switch
    {
        CleaningDepth.Dirt => test.OnDirt,
        CleaningDepth.Varnish => test.OnVarnish,
        CleaningDepth.Overpaint => test.OnOverpaint,
        _ => test.OnOriginal,
    };

    /// <summary>Whether an effect is one.</summary>
    public static bool Acts(TestEffect effect) => effect is TestEffect.Softened or TestEffect.Reduced or TestEffect.Removed;

    /// <summary>Layers below the aim that it acted on.</summary>
    private static IEnumerable<CleaningDepth> Beyond(CleaningTestContent test) => Enum.GetValues<CleaningDepth>().Where(layer => layer > test.Aim && Acts(EffectOn(test, layer)));

    private static string Word(TestEffect effect) => effect switch { TestEffect.Removed => "it took off", TestEffect.Reduced => "it took off part of", _ => "it softened or dulled" };

    /// <summary>What a layer is called in a sentence.</summary>
    internal static string Word(CleaningDepth layer) => layer switch { CleaningDepth.Dirt => "dirt", CleaningDepth.Varnish => "varnish", CleaningDepth.Overpaint => "overpaint", _ => "the painter's own paint" };
}
