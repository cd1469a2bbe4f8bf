using System.Globalization;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>A parameter of a reading: declared once, and everything that shows or checks it is made from this.</summary>
/// <param name="Name">Kebab-case name: <c>block-size</c>.</param>
/// <param name="Label">What a form calls it.</param>
/// <param name="Help">One or two sentences.</param>
/// <param name="Unit">Unit of the number; null for none.</param>
public abstract record Parameter(string Name, string Label, string Help, string? Unit)
{
    /// <summary>"number", "integer", "choice", "flag", "length" or "document".</summary>
    public abstract string Type { get; }

    /// <summary>The default as text, in the form <see cref="ParseObject"/> reads.</summary>
    public abstract string DefaultText { get; }

    /// <summary>The permitted values in words: "0.1 to 50 mm", "one of: a, b".</summary>
    public abstract string RangeText { get; }

    /// <summary>Reads and checks a value.</summary>
    /// <exception cref="InputProblem">Not a value of the type, or outside the range.</exception>
    internal abstract object ParseObject(string text);

    /// <summary>Writes a value in the form <see cref="ParseObject"/> reads.</summary>
    internal abstract string Format(object value);

    /// <summary>A problem with this parameter.</summary>
    protected InputProblem Refuse(string text) => new("parameter-value", Name,
        $"\"{text}\" is not a value for {Name}.", $"Give {RangeText}; the default is {DefaultText}{(Unit is null ? "" : " " + Unit)}.");
}

/// <summary>A parameter whose values are of type <typeparamref name="T"/>.</summary>
public abstract record Parameter<T>(string Name, string Label, string Help, string? Unit, T Default) : Parameter(Name, Label, Help, Unit)
    where T : notnull
{
    /// <inheritdoc/>
    public override string DefaultText => Format(Default);

    /// <inheritdoc/>
    internal override string Format(object value) => Convert.ToString(value, CultureInfo.InvariantCulture)!;
}

/// <summary>A real number within bounds.</summary>
public sealed record NumberParameter(string Name, string Label, string Help, string? Unit, double Default, double Minimum, double Maximum)
    : Parameter<double>(Name, Label, Help, Unit, Default)
{
    /// <inheritdoc/>
    public override string Type => "number";

    /// <inheritdoc/>
    public override string RangeText => string.Create(CultureInfo.InvariantCulture, $"{Minimum} to {Maximum}{(Unit is null ? "" : " " + Unit)}");

    internal override object ParseObject(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && v >= Minimum && v <= Maximum ? v : throw Refuse(text);
}

/// <summary>A whole number within bounds.</summary>
public sealed record IntegerParameter(string Name, string Label, string Help, string? Unit, int Default, int Minimum, int Maximum)
    : Parameter<int>(Name, Label, Help, Unit, Default)
{
    /// <inheritdoc/>
    public override string Type => "integer";

    /// <inheritdoc/>
    public override string RangeText => string.Create(CultureInfo.InvariantCulture, $"{Minimum} to {Maximum}{(Unit is null ? "" : " " + Unit)}");

    internal override object ParseObject(string text) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var v) && v >= Minimum && v <= Maximum ? v : throw Refuse(text);
}

/// <summary>A length on the object in millimetres. Using it on an image without a scale is an <see cref="InputProblem"/>.</summary>
public sealed record LengthParameter(string Name, string Label, string Help, double Default, double Minimum, double Maximum)
    : Parameter<double>(Name, Label, Help, "mm", Default)
{
    /// <inheritdoc/>
    public override string Type => "length";

    /// <inheritdoc/>
    public override string RangeText => string.Create(CultureInfo.InvariantCulture, $"{Minimum} to {Maximum} mm");

    internal override object ParseObject(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && v >= Minimum && v <= Maximum ? v : throw Refuse(text);
}

/// <summary>One of several named choices.</summary>
public sealed record ChoiceParameter(string Name, string Label, string Help, string Default, IReadOnlyList<string> Choices)
    : Parameter<string>(Name, Label, Help, null, Default)
{
    /// <inheritdoc/>
    public override string Type => "choice";

    /// <inheritdoc/>
    public override string RangeText => "one of: " + string.Join(", ", Choices);

    internal override object ParseObject(string text) => Choices.Contains(text) ? text : throw Refuse(text);
}

/// <summary>Yes or no.</summary>
public sealed record FlagParameter(string Name, string Label, string Help, bool Default) : Parameter<bool>(Name, Label, Help, null, Default)
{
    /// <inheritdoc/>
    public override string Type => "flag";

    /// <inheritdoc/>
    public override string RangeText => "true or false";

    internal override object ParseObject(string text) => bool.TryParse(text, out var v) ? v : throw Refuse(text);

    internal override string Format(object value) => (bool)value ? "true" : "false";
}
