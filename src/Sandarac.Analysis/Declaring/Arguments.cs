using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>A value for every parameter of a reading: what was given, and the defaults for the rest.</summary>
public sealed class Arguments
{
    private readonly IReadOnlyDictionary<string, object> _values;

    private Arguments(Declaration declaration, IReadOnlyDictionary<string, object> values)
    {
        _values = values;
        Texts = [.. declaration.Parameters.Select(p => new ArgumentText(p.Name, p.Format(values[p.Name]), p.Unit))];
    }

    /// <summary>Every parameter with its resolved value as text, in the declaration's order.</summary>
    public IReadOnlyList<ArgumentText> Texts { get; }

    /// <summary>Checks what was given and fills in the defaults.</summary>
    /// <param name="declaration">The reading's declaration.</param>
    /// <param name="given">Values as text by parameter name; decimal point, no thousands mark.</param>
    /// <exception cref="InputProblem">An unknown name (with the nearest known one), or a value outside its range.</exception>
    public static Arguments Resolve(Declaration declaration, IReadOnlyDictionary<string, string> given)
    {
        var names = declaration.Parameters.Select(p => p.Name).ToArray();
        foreach (var name in given.Keys.Where(n => !names.Contains(n)).Order(StringComparer.Ordinal))
            throw new InputProblem("unknown-parameter", name, $"{declaration.Id} has no parameter \"{name}\".", Suggestion.Remedy(name, names, "parameter"));
        return new Arguments(declaration, declaration.Parameters.ToDictionary(p => p.Name,
            p => p.ParseObject(given.TryGetValue(p.Name, out var text) ? text : p.DefaultText)));
    }

    /// <summary>A parameter's value.</summary>
    /// <exception cref="ArgumentException">The parameter is not declared by this reading: a defect of the reading.</exception>
    public T Value<T>(Parameter<T> parameter) where T : notnull => _values.TryGetValue(parameter.Name, out var value)
        ? (T)value
        : throw new ArgumentException($"The parameter {parameter.Name} is used but not declared.", nameof(parameter));
}

/// <summary>A parameter's resolved value as text.</summary>
/// <param name="Name">The parameter's name.</param>
/// <param name="Value">The value, in the form that <see cref="Arguments.Resolve"/> reads.</param>
/// <param name="Unit">Its unit; null for none.</param>
public sealed record ArgumentText(string Name, string Value, string? Unit);
