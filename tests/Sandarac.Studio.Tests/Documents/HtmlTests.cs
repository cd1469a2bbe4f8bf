using System.Text;
using System.Text.RegularExpressions;
using Sandarac.Studio.Documents.Model;
using Sandarac.Studio.Documents.Web;

namespace Sandarac.Studio.Tests.Documents;

public sealed partial class HtmlTests
{
    [Fact]
    public void It_needs_nothing_beside_it_and_runs_nothing()
    {
        var html = Write(SampleDocument.Of("<script>alert(1)</script><img src=http://x onerror=y>"));
        Assert.All(Addresses().Matches(html), m => Assert.Matches("^(data:image/(jpeg|png|svg\\+xml);base64,|#s[0-9])", m.Groups[1].Value));
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img src=http", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(" style=", html, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", html, StringComparison.Ordinal);
        Assert.DoesNotContain("url(", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_link_of_the_contents_leads_to_a_heading()
    {
        var html = Write(SampleDocument.Of());
        var targets = Regex.Matches(html, "href=\"#([^\"]+)\"").Select(m => m.Groups[1].Value).ToList();
        Assert.Equal(4, targets.Count);
        Assert.All(targets, t => Assert.Matches($"<h[2-4] id=\"{t}\">", html));
    }

    [Fact]
    public void Figures_are_padded_so_that_their_decimal_signs_meet()
    {
        var cells = new DecimalPadding(["1.5", "123.25", "7", "no answer"], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(["1.5\u2007", "123.25", "7\u2008\u2007\u2007", "no answer"], new Prose[] { "1.5", "123.25", "7", "no answer" }.Select(c => cells.Pad(c).Plain));
    }

    [Fact]
    public void A_picture_that_cannot_be_read_says_so_in_its_place() =>
        Assert.Contains("No picture: The object abc is missing. Restore it from a copy.", Write(SampleDocument.Of(more: [new Plates([new Plate(SampleDocument.Lost(), "Lost.", "")])])), StringComparison.Ordinal);

    private static string Write(Document document)
    {
        using var stream = new MemoryStream();
        HtmlRenderer.Write(document, stream, TestContext.Current.CancellationToken);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    [GeneratedRegex("(?:src|href)=\"([^\"]*)\"")]
    private static partial Regex Addresses();
}
