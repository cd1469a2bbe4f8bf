using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>Checks images against a reading's input slots, before anything is computed.</summary>
public static class InputCheck
{
    /// <summary>Passes when every slot has as many images as it takes, of lights it takes, and images on the plane share one grid.</summary>
    /// <param name="declaration">The reading's declaration.</param>
    /// <param name="inputs">Images by slot name; a slot without images may be left out.</param>
    /// <exception cref="InputProblem">The first thing that is wrong.</exception>
    public static void Check(Declaration declaration, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs)
    {
        var names = declaration.Inputs.Select(s => s.Name).ToArray();
        foreach (var name in inputs.Keys.Where(n => !names.Contains(n)).Order(StringComparer.Ordinal))
            throw new InputProblem("unknown-input", name, $"{declaration.Id} has no input \"{name}\".", Suggestion.Remedy(name, names, "input"));
        foreach (var slot in declaration.Inputs) CheckSlot(declaration, slot, inputs.GetValueOrDefault(slot.Name) ?? []);
        if (declaration.OnPlane) CheckGrid([.. declaration.Inputs.Where(s => !s.InOwnPixels).SelectMany(s => inputs.GetValueOrDefault(s.Name) ?? [])]);
    }

    /// <summary>"1 image", "3 to 12 images": how many a slot takes.</summary>
    internal static string CountText(InputSlot slot) => slot.Minimum == slot.Maximum ? Images(slot.Minimum)
        : slot.Maximum == int.MaxValue ? $"at least {Images(slot.Minimum)}"
        : string.Create(CultureInfo.InvariantCulture, $"{slot.Minimum} to {Images(slot.Maximum)}");

    /// <summary>"VIS or UVL", "any light".</summary>
    internal static string LightText(InputSlot slot) => slot.Lights.Count == 0 ? "any light" : string.Join(" or ", slot.Lights.Select(l => l.Code));

    private static string Images(int n) => n == 1 ? "1 image" : string.Create(CultureInfo.InvariantCulture, $"{n} images");

    private static void CheckSlot(Declaration declaration, InputSlot slot, IReadOnlyList<InputImage> images)
    {
        if (images.Count < slot.Minimum || images.Count > slot.Maximum)
            throw new InputProblem("input-count", slot.Name, $"{declaration.Id} was given {Images(images.Count)} as {slot.Name}.", $"Give {CountText(slot)} ({LightText(slot)}).");
        // An image whose light nobody knows is taken at the person's word: they put it into this slot.
        var wrong = slot.Lights.Count == 0 ? null : images.FirstOrDefault(i => i.Light is { } light && !slot.Lights.Contains(light));
        if (wrong is not null)
            throw new InputProblem("input-light", wrong.Name, $"{wrong.Name} is {Article(wrong.Light!)} photograph; {slot.Name} takes {LightText(slot)}.", "Give another image, or correct this one's light.");
    }

    private static string Article(Light light) => $"{(light.Name[0] is 'i' or 'u' or 'X' ? "an" : "a")} {light.Name}";

    private static void CheckGrid(IReadOnlyList<InputImage> images)
    {
        if (images.Count == 0) return;
        var other = images.FirstOrDefault(i => (i.Image.Facts.Width, i.Image.Facts.Height) != (images[0].Image.Facts.Width, images[0].Image.Facts.Height));
        if (other is null) return;
        var (a, b) = (images[0].Image.Facts, other.Image.Facts);
        throw new InputProblem("input-size", other.Name,
            string.Create(CultureInfo.InvariantCulture, $"{other.Name} is {b.Width} x {b.Height} pixels, {images[0].Name} is {a.Width} x {a.Height}: they do not share one grid."),
            "Give aligned images of one size; in a studio, align the photographs first.");
    }
}
