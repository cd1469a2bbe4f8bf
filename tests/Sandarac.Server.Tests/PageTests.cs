using System.Net;
using System.Text.RegularExpressions;
using Sandarac.Studio.Documents;

namespace Sandarac.Server.Tests;

public sealed partial class PageTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Painting => $"/paintings/{server.Seed.Painting.Id}";

    [Fact]
    public async Task The_first_page_lists_the_paintings()
    {
        var page = await PageAsync("/");
        Assert.Contains("Weir in flood", page, StringComparison.Ordinal);
        Assert.Contains("90.1 x 120.1 mm", page, StringComparison.Ordinal);
        Assert.Contains("2 photographs", page, StringComparison.Ordinal);
        Assert.Contains($"/api/layers/p-{server.Seed.Deep.Id}/thumbnail", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_Easel_hosts_the_viewer_without_a_circuit()
    {
        var page = await PageAsync($"{Painting}/easel");
        Assert.Contains($"""<main id="easel" data-painting="{server.Seed.Painting.Id}">""", page, StringComparison.Ordinal);
        Assert.Contains("""<script type="module" src="/viewer/easel.js">""", page, StringComparison.Ordinal);
        Assert.DoesNotContain("blazor.web.js", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_photographs_show_light_alignment_figures_and_warnings()
    {
        var page = await PageAsync($"{Painting}/photographs");
        Assert.Contains("VIS_01.tif", page, StringComparison.Ordinal);
        Assert.Contains("the file&#x27;s name begins with VIS", page, StringComparison.Ordinal);
        Assert.Contains($"95 of 100 places within {Words.Mm(0.11)}", page, StringComparison.Ordinal);
        Assert.Contains("""12.50<span class="uncertainty"> ± 0.70</span>""", WebUtility.HtmlDecode(page).Replace('\u00a0', ' '), StringComparison.Ordinal);
        Assert.Contains("The lower right is 1.4 stops darker than the middle.", page, StringComparison.Ordinal);
        Assert.Contains($"{Painting}/easel?corners={server.Seed.Deep.Id}", page, StringComparison.Ordinal);
        Assert.Contains(server.Seed.Deep.Sha256, page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("easel")]
    [InlineData("photographs")]
    [InlineData("readings")]
    [InlineData("sections")]
    [InlineData("sections?sample=new")]
    [InlineData("build-up")]
    [InlineData("dossier")]
    [InlineData("findings?finding=new")]
    [InlineData("findings?show=candidates")]
    [InlineData("/search?words=a&from=x")]
    [InlineData("checks")]
    [InlineData("panel")]
    [InlineData("panel?calc=movement&wood=oak&widths=300&angle=0&from=50&to=35&temperature=20")]
    [InlineData("/nowhere")]
    public async Task No_page_has_inline_style_or_script(string address)
    {
        using var answer = await server.Client.GetAsync(address[0] == '/' ? address : $"{Painting}/{address}", _stop);
        var page = await answer.Content.ReadAsStringAsync(_stop);
        Assert.DoesNotMatch(InlineStyle(), page);
        Assert.DoesNotMatch(InlineScript(), page);
        Assert.Contains("<html lang=\"en\">", page, StringComparison.Ordinal);
        Assert.Single(MainPart().Matches(page));
    }

    [Theory]
    [InlineData("easel")]
    [InlineData("photographs")]
    [InlineData("readings")]
    [InlineData("sections")]
    [InlineData("build-up")]
    [InlineData("dossier")]
    [InlineData("checks")]
    [InlineData("panel")]
    [InlineData("panel?calc=movement&wood=oak&widths=300&angle=0&from=50&to=35&temperature=20")]
    [InlineData("document")]
    public async Task An_unknown_painting_is_a_page_in_words(string page)
    {
        using var answer = await server.Client.GetAsync($"/paintings/{Guid.NewGuid()}/{page}", _stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        var text = await answer.Content.ReadAsStringAsync(_stop);
        Assert.Contains("There is no such painting", text, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("photographs")]
    [InlineData("readings?reading=photograph-quality")] // has a base address, against which "#main" alone would lead to the first page
    public async Task The_skip_link_stays_on_its_page(string address) =>
        Assert.Contains($"""<a class="skip" href="{Painting}/{address}#main">""", await PageAsync($"{Painting}/{address}"), StringComparison.Ordinal);

    [Fact]
    public async Task A_form_without_its_token_is_refused()
    {
        using var form = new FormUrlEncodedContent([new("_handler", "reading")]);
        using var answer = await server.Client.PostAsync($"{Painting}/readings?reading=photograph-quality", form, _stop);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    public async Task A_value_out_of_range_is_said_at_its_field_and_what_was_entered_stays()
    {
        using var answer = await PostReadingAsync("photograph-quality", ("parameter-warn-clipped", "-3"), ("input-photograph", server.Seed.Deep.Id.ToString()));
        var page = await answer.Content.ReadAsStringAsync(_stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Matches("""id="parameter-warn-clipped"[^>]*value="-3"[^>]*aria-invalid="true"[^>]*autofocus""", page);
        Assert.Contains("\"-3\" is not a value", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_line_is_drawn_for_the_form_that_asks_for_one_and_comes_back_with_all_that_was_entered()
    {
        var photograph = server.Seed.Deep.Id;
        using var drawing = await PostReadingAsync("ring-widths", ("parameter-narrowest", "0.4"), ("parameter-from-x", "7"), ("input-wood", $"{photograph}"), ("draw", "yes"));
        Assert.EndsWith($"/easel?line={photograph}&reading=ring-widths&input-wood={photograph}&parameter-from-x=7&parameter-narrowest=0.4", $"{drawing.Headers.Location}", StringComparison.Ordinal);
        var form = await PageAsync($"{Painting}/readings?reading=ring-widths&input-wood={photograph}&parameter-from-x=12.5&parameter-latewood=light&parameter-to-x=%22%3E%3Cb%3E");
        Assert.Matches("""id="parameter-from-x"[^>]*value="12.5" """, form);
        Assert.Matches("""<option value="light" selected""", form);
        Assert.Matches($"""<option value="{photograph}" selected""", form);
        Assert.DoesNotContain("<b>", form, StringComparison.Ordinal);
        Assert.DoesNotContain("Draw the line", await PageAsync($"{Painting}/readings?reading=photograph-quality"), StringComparison.Ordinal);
    }

    private async Task<string> PageAsync(string path)
    {
        using var answer = await server.Client.GetAsync(path, _stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(_stop);
    }

    /// <summary>Loads the form, fills in what is given and sends it, as a browser without script would.</summary>
    private async Task<HttpResponseMessage> PostReadingAsync(string reading, params (string Name, string Value)[] entries)
    {
        var path = $"{Painting}/readings?reading={reading}";
        using var page = await server.Client.GetAsync(path, _stop);
        var html = await page.Content.ReadAsStringAsync(_stop);
        var fields = HiddenField().Matches(html).ToDictionary(m => m.Groups["name"].Value, m => WebUtility.HtmlDecode(m.Groups["value"].Value));
        foreach (Match number in NumberField().Matches(html)) fields[number.Groups["name"].Value] = number.Groups["value"].Value;
        foreach (Match choice in ChosenOption().Matches(html)) fields[choice.Groups["name"].Value] = choice.Groups["value"].Value;
        foreach (var (name, value) in entries) fields[name] = value;
        var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(fields) };
        request.Headers.Add("Cookie", page.Headers.GetValues("Set-Cookie").Select(c => c.Split(';')[0]));
        return await server.Client.SendAsync(request, _stop);
    }

    [GeneratedRegex("""\sstyle=|<style""")]
    private static partial Regex InlineStyle();

    [GeneratedRegex("""<script(?![^>]*\ssrc=)|\son[a-z]+=""")]
    private static partial Regex InlineScript();

    [GeneratedRegex("<main ")]
    private static partial Regex MainPart();

    [GeneratedRegex("""<input type="hidden" name="(?<name>[^"]+)" value="(?<value>[^"]*)" """)]
    private static partial Regex HiddenField();

    [GeneratedRegex("""<input class="number"[^>]*name="(?<name>[^"]+)"[^>]*value="(?<value>[^"]*)" """)]
    private static partial Regex NumberField();

    [GeneratedRegex("""<select[^>]*name="(?<name>[^"]+)"(?:(?!</select>).)*?<option value="(?<value>[^"]*)"[^>]*selected.*?</select>""", RegexOptions.Singleline)]
    private static partial Regex ChosenOption();
}
