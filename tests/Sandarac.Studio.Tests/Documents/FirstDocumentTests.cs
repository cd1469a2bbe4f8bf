using System.Text.RegularExpressions;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Documents;

public sealed partial class FirstDocumentTests
{
    [Fact]
    public void The_document_is_self_contained_escaped_and_says_what_the_record_says()
    {
        using var home = new TemporaryStudio();
        var folder = Path.Combine(home.Root, "photographs");
        SmallPhotographs.WriteSet(folder);
        const string title = "<script>alert(1)</script> & \"Ferry\"";
        var examination = new Examining(home.Studio).Examine(folder, new ExamineOptions { Title = title, HeightMm = 100, WidthMm = 117, CornersOnly = true }, cancellation: TestContext.Current.CancellationToken);
        var html = File.ReadAllText(examination.DocumentPath);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Ferry&quot;", html, StringComparison.Ordinal);
        Assert.DoesNotContain(" style=", html, StringComparison.Ordinal);
        Assert.All(Addresses().Matches(html), m => Assert.Matches("^(data:image/jpeg;base64,|#s[0-9])", m.Groups[1].Value));
        Assert.True(Regex.Count(html, "src=\"data:image/jpeg;base64,") >= examination.Photographs.Count);
        Assert.All(examination.Photographs, p => Assert.Contains(p.Sha256, html, StringComparison.Ordinal));
        Assert.Contains("100 x 117 mm", html, StringComparison.Ordinal);
        Assert.Contains("Ultraviolet:", html, StringComparison.Ordinal);
        Assert.DoesNotContain("X-rays:", html, StringComparison.Ordinal);
        Assert.Contains(FirstDocument.StylePolicySource["'sha256-".Length..^1], Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(
            System.Text.Encoding.UTF8.GetBytes(html[(html.IndexOf("<style>", StringComparison.Ordinal) + 7)..html.IndexOf("</style>", StringComparison.Ordinal)]))), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(412, 100)]
    [InlineData(150, 50)]
    [InlineData(149, 20)]
    [InlineData(0.9, 0.2)]
    public void A_scale_bar_is_a_round_length_of_at_most_a_third(double width, double expected) => Assert.Equal(expected, ScaleBar.LengthMm(width), 1e-12);

    [GeneratedRegex("(?:src|href)=\"([^\"]*)\"")]
    private static partial Regex Addresses();
}
