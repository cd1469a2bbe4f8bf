using System.Globalization;
using System.Net;
using Sandarac.Studio.Documents.Model;

namespace Sandarac.Studio.Documents.Web;

/// <summary>Makes markup. Everything interpolated is escaped, unless it is <see cref="Markup"/> made here.</summary>
internal static class Html
{
    /// <summary>Markup with escaped values.</summary>
    public static Markup Of(FormattableString markup) => new(string.Format(CultureInfo.InvariantCulture, markup.Format, [.. markup.GetArguments().Select(Escape)]));

    /// <summary>Pieces one after another.</summary>
    public static Markup Join(IEnumerable<Markup> pieces, string between = "") => new(string.Join(between, pieces.Select(p => p.Text)));

    private static object Escape(object? value) => value switch
    {
        null => "",
        Markup markup => markup.Text,
        IFormattable number => new Escaped(number),
        _ => WebUtility.HtmlEncode(Legible.Of(value.ToString()!)),
    };

    private sealed class Escaped(IFormattable value) : IFormattable
    {
        public string ToString(string? format, IFormatProvider? formatProvider) => WebUtility.HtmlEncode(value.ToString(format, formatProvider));
    }
}

/// <summary>Text that is markup already.</summary>
internal readonly record struct Markup(string Text)
{
    public static readonly Markup None = new("");
}
