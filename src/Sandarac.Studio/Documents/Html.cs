using System.Globalization;
using System.Net;
using System.Text;
using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents;

/// <summary>Builds a page. Everything interpolated into <see cref="Add"/> is escaped, unless it is <see cref="Markup"/> made here.</summary>
internal sealed class Html
{
    private readonly StringBuilder _text = new();

    /// <summary>Adds markup with escaped values.</summary>
    public Html Add(FormattableString markup)
    {
        _text.Append(Of(markup).Text).Append('\n');
        return this;
    }

    /// <summary>Markup with escaped values.</summary>
    public static Markup Of(FormattableString markup) => new(string.Format(CultureInfo.InvariantCulture, markup.Format, [.. markup.GetArguments().Select(Escape)]));

    /// <summary>Pieces one after another.</summary>
    public static Markup Join(IEnumerable<Markup> pieces, string between = "") => new(string.Join(between, pieces.Select(p => p.Text)));

    /// <inheritdoc/>
    public override string ToString() => _text.ToString();

    private static object Escape(object? value) => value switch
    {
        null => "",
        Markup markup => markup.Text,
        IFormattable number => new Escaped(number),
        _ => WebUtility.HtmlEncode(Legible.Of(value.ToString()!)),
    };

    private sealed class Escaped(IFormattable value) : IFormattable
    {
        public string ToString(string? format, IFormatProvider? formatProvider) => WebUtility.HtmlEncode(value.ToString(format, formatProvider)) ?? "";
    }
}

/// <summary>Text that is markup already.</summary>
internal readonly record struct Markup(string Text)
{
    public static readonly Markup None = new("");
}
