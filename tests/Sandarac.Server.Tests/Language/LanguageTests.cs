using System.Net;
using System.Text.RegularExpressions;
using Sandarac.Studio;

namespace Sandarac.Server.Tests.Language;

/// <summary>Pages as they are answered in Spanish.</summary>
public sealed partial class LanguageTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Painting => $"/paintings/{server.Seed.Painting.Id}";

    [Theory]
    [InlineData("/", "Pinturas")]
    [InlineData("easel", "Caballete")]
    [InlineData("photographs", "En el plano")]
    [InlineData("readings?reading=photograph-quality", "Ejecutar esta lectura")]
    [InlineData("readings?reading=relief", "Relieve a partir de luz rasante")]
    [InlineData("sections", "Muestras")]
    [InlineData("sections?sample=new", "Pregunta que debía responder")]
    [InlineData("build-up", "Anotar una etapa")]
    [InlineData("findings?finding=new", "Observación: lo que se ve")]
    [InlineData("findings?show=candidates", "Candidatas")]
    [InlineData("checks", "Empezar un estado")]
    [InlineData("plan", "Plano de estado")]
    [InlineData("cleaning", "Otra prueba")]
    [InlineData("proposal?proposal=new", "Una propuesta nueva")]
    [InlineData("treatment?step=new", "Un paso nuevo")]
    [InlineData("dossier", "Informe de estado de conservación")]
    [InlineData("/search?words=weir", "Buscar en todas las pinturas")]
    [InlineData("/solvents", "Dejar fuera los que son")]
    [InlineData("/solvents?solvent=toluene", "Masa molar, g/mol")]
    [InlineData("/solvents/mixture?mixture=ethanol+20+%2B+isooctane+80&region=*", "Al evaporarse")]
    [InlineData("/solvents/blend?target=toluene&most=2&least=5", "Combinación, % en volumen")]
    [InlineData("/solvents/shelf", "En el estante")]
    [InlineData("/calculators?calc=vapour&solvent=acetone&ml=10&room=50&changes=3", "Frente al límite")]
    [InlineData("/calculators?calc=buffer&buffer=citrate&concentration=0.05&ph=5.5&cation=Na%2B&davies=on", "Fuerza iónica")]
    [InlineData("/nowhere", "No hay nada en esta dirección")]
    public async Task A_page_in_Spanish_says_nothing_of_its_own_in_English(string address, string words)
    {
        using var answer = await AskAsync(address[0] == '/' ? address : $"{Painting}/{address}", "es-ES,es;q=0.9,en;q=0.5");
        var page = await answer.Content.ReadAsStringAsync(_stop);
        Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
        Assert.Equal("es", Assert.Single(answer.Content.Headers.ContentLanguage));
        var told = Told(page);
        Assert.Contains(told, t => t.Contains(words, StringComparison.Ordinal));
        var english = Sources.Table("Interface").Where(e => e.Key != e.Value).Select(e => e.Key.Split('|')[0]).ToHashSet(StringComparer.OrdinalIgnoreCase);
        english.ExceptWith(Sources.Table("Interface").Values);
        // What people called a state stays as they called it.
        english.ExceptWith(new ConditionStates(server.Studio).Of(server.Seed.Painting.Id).Select(s => s.Content.Name));
        Assert.Empty(told.Where(english.Contains).ToList());
        var sentences = english.Where(k => k.Length > 20 || k.Contains("{0}", StringComparison.Ordinal) && k.Count(char.IsLetter) > 4).Select(Sources.Filled).ToList();
        Assert.Empty(told.Where(t => sentences.Any(s => s.IsMatch(t))).ToList());
    }

    [Fact]
    public async Task A_language_that_is_chosen_is_remembered_and_outranks_the_browser()
    {
        using var chosen = await AskAsync("/?language=es", "en");
        Assert.Contains("Pinturas", await chosen.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
        var cookie = Assert.Single(chosen.Headers.GetValues("Set-Cookie"), c => c.StartsWith("language", StringComparison.Ordinal));
        Assert.StartsWith("language=es; ", cookie, StringComparison.Ordinal);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        using var later = await AskAsync("/search", "en", "language=es");
        Assert.Contains("Buscar en todas las pinturas", await later.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
        using var back = await AskAsync("/search?language=en", "es", "language=es");
        Assert.Contains("Search all paintings", await back.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/?language=xx", "fr,de;q=0.5", "")]
    [InlineData("/", "zz-!!,es;q=x", "language=../../etc")]
    [InlineData("/?language=", "", "language=fr")]
    public async Task What_nobody_wrote_pages_in_is_answered_in_English(string address, string accepts, string cookie)
    {
        using var answer = await AskAsync(address, accepts, cookie);
        Assert.Contains("<html lang=\"en\">", await answer.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
        Assert.DoesNotContain(answer.Headers, h => h.Key == "Set-Cookie" && h.Value.Any(v => v.StartsWith("language", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Every_language_is_a_link_that_stays_on_the_page()
    {
        using var answer = await AskAsync("/search?words=weir", "es");
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(_stop));
        Assert.Contains("""<a href="/search?words=weir&language=en" lang="en" hreflang="en">English</a>""", page, StringComparison.Ordinal);
        Assert.Contains("""<a href="/search?words=weir&language=es" lang="es" hreflang="es" aria-current="true">Español</a>""", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_problem_is_told_in_Spanish_on_a_page_and_in_English_to_a_program()
    {
        using var page = await AskAsync("/search?words=a&from=soon", "es");
        Assert.Contains("Desde: «soon» no es una fecha.", WebUtility.HtmlDecode(await page.Content.ReadAsStringAsync(_stop)), StringComparison.Ordinal);
        using var program = await AskAsync("/api/search?term=nonesuch", "es");
        Assert.Equal("No term of this studio is called \"nonesuch\".", (await program.ProblemAsync(HttpStatusCode.BadRequest, "search-term")).GetProperty("title").GetString());
        using var unknown = await AskAsync($"/paintings/{Guid.NewGuid()}/findings", "es");
        Assert.Contains("No existe esa pintura.", await unknown.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Figures_have_a_comma_to_be_read_and_a_point_in_fields()
    {
        using var photographs = await AskAsync($"{Painting}/photographs", "es");
        var page = WebUtility.HtmlDecode(await photographs.Content.ReadAsStringAsync(_stop)).Replace('\u00a0', ' ');
        Assert.Contains("""12,50<span class="uncertainty"> ± 0,70</span>""", page, StringComparison.Ordinal);
        Assert.Contains("95 de cada 100 puntos, a menos de 0,11 mm.", page, StringComparison.Ordinal);
        Assert.Contains("90,1 x 120,1 mm", page, StringComparison.Ordinal);
        using var form = await AskAsync($"{Painting}/readings?reading=photograph-quality", "es");
        var values = Value().Matches(await form.Content.ReadAsStringAsync(_stop)).Select(m => m.Groups[1].Value).ToList();
        Assert.Contains(values, v => v.Contains('.', StringComparison.Ordinal));
        Assert.DoesNotContain(values, v => v.Contains(',', StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_the_record_says_in_English_is_marked_as_such()
    {
        using var answer = await AskAsync($"{Painting}/photographs", "es");
        Assert.Contains("""<span lang="en">The lower right is 1.4 stops darker than the middle.</span>""", await answer.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
    }

    private async Task<HttpResponseMessage> AskAsync(string address, string accepts, string cookie = "")
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        if (accepts.Length > 0) request.Headers.TryAddWithoutValidation("Accept-Language", accepts);
        if (cookie.Length > 0) request.Headers.TryAddWithoutValidation("Cookie", cookie);
        return await server.Client.SendAsync(request, _stop);
    }

    /// <summary>Every text that is seen or read aloud, but those that are marked as English.</summary>
    private static List<string> Told(string page)
    {
        var body = English().Replace(page[page.IndexOf("<title>", StringComparison.Ordinal)..], "");
        return [.. Attribute().Matches(body).Select(m => m.Groups[1].Value).Concat(Tag().Split(body)).Select(t => WebUtility.HtmlDecode(t).Trim()).Where(t => t.Length > 0)];
    }

    [GeneratedRegex("""<(?<tag>\w+)[^>]* lang="en"[^>]*>.*?</\k<tag>>""", RegexOptions.Singleline)]
    private static partial Regex English();

    [GeneratedRegex("""\s(?:aria-label|alt|placeholder|title)="([^"]+)"(?=[\s>])""")]
    private static partial Regex Attribute();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("""<input class="number"[^>]*value="([^"]*)"(?=[\s>])""")]
    private static partial Regex Value();
}
