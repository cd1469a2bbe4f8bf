using System.Net;

namespace Sandarac.Server.Tests;

public sealed class SecurityTests(RunningServer server)
{
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/")]
    [InlineData("/nothing-here")]
    [InlineData("/api/nothing-here")]
    [InlineData("/css/sandarac.css")]
    [InlineData("/viewer/easel.js")]
    [InlineData("/openapi/v1.json")]
    public async Task Every_answer_carries_the_policy(string path)
    {
        using var answer = await server.Client.GetAsync(path, _stop);
        Assert.Equal("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; "
            + "worker-src 'self' blob:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'", Header(answer, "Content-Security-Policy"));
        Assert.Equal("nosniff", Header(answer, "X-Content-Type-Options"));
        Assert.Equal("no-referrer", Header(answer, "Referrer-Policy"));
        Assert.Equal("same-origin", Header(answer, "Cross-Origin-Opener-Policy"));
        Assert.Equal("same-origin", Header(answer, "Cross-Origin-Resource-Policy"));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Theory]
    [InlineData("studio.example", true)]
    [InlineData("127.0.0.1.example", true)]
    [InlineData("localhost", false)] // port 80
    [InlineData("127.0.0.1:1", false)]
    public async Task A_foreign_host_is_refused(string host, bool addPort)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = addPort ? $"{host}:{server.Client.BaseAddress!.Port}" : host;
        using var answer = await server.Client.SendAsync(request, _stop);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, "foreign-host");
        Assert.Contains("default-src 'none'", Header(answer, "Content-Security-Policy"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("localhost")]
    [InlineData("[::1]")]
    public async Task Its_own_names_are_answered(string host)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = $"{host}:{server.Client.BaseAddress!.Port}";
        using var answer = await server.Client.SendAsync(request, _stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("POST", "/api/paintings", "Origin", "https://elsewhere.example")]
    [InlineData("POST", "/api/paintings", "Origin", "null")]
    [InlineData("PUT", "/api/zones/1", "Sec-Fetch-Site", "cross-site")]
    [InlineData("DELETE", "/api/zones/1", "Sec-Fetch-Site", "same-site")] // another port of this machine
    [InlineData("GET", "/_blazor", "Origin", "http://127.0.0.1:1")]
    [InlineData("POST", "/_blazor/negotiate", "Sec-Fetch-Site", "cross-site")]
    public async Task A_write_from_another_site_is_refused(string method, string path, string header, string value)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        request.Headers.Add(header, value);
        using var answer = await server.Client.SendAsync(request, _stop);
        await answer.ProblemAsync(HttpStatusCode.Forbidden, "cross-site");
    }

    [Fact]
    public async Task A_form_of_its_own_pages_is_taken_although_they_tell_no_origin()
    {
        // As Chromium sends a form from a page with Referrer-Policy: no-referrer.
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/paintings/x");
        request.Headers.Add("Origin", "null");
        request.Headers.Add("Sec-Fetch-Site", "same-origin");
        using var answer = await server.Client.SendAsync(request, _stop);
        // The guard lets it through; it is the address that does not take a POST.
        await answer.ProblemAsync(HttpStatusCode.MethodNotAllowed, "method-not-allowed");
    }

    [Fact]
    public async Task An_unknown_page_says_so_in_words()
    {
        using var answer = await server.Client.GetAsync("/nothing-here", _stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("There is nothing at this address", await answer.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_address_of_the_API_says_so_as_a_problem()
    {
        using var answer = await server.Client.GetAsync("/api/nothing-here", _stop);
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-address");
    }

    [Theory]
    [InlineData("/_framework/blazor.web.js", "text/javascript")]
    [InlineData("/css/fonts.css", "text/css")]
    [InlineData("/fonts/source-sans-3-latin-400-normal.woff2", "font/woff2")]
    [InlineData("/viewer/easel.js", "text/javascript")]
    public async Task Shipped_files_are_served(string path, string type)
    {
        using var answer = await server.Client.GetAsync(path, _stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType?.MediaType);
    }

    [Theory]
    [InlineData("/viewer/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/css/..%2f..%2fSandarac.Server.dll")]
    [InlineData("/css/%2e%2e/%2e%2e/Sandarac.Server.dll")]
    public async Task Paths_cannot_climb_out_of_the_shipped_files(string path)
    {
        using var answer = await server.Client.GetAsync(new Uri(server.Client.BaseAddress + path.TrimStart('/')), _stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    /// <summary>RFC 9112, section 9.6: who closes says so, or the next request on the connection is lost.</summary>
    [Theory]
    [InlineData("/solvents")]
    [InlineData("/api/paintings")]
    public async Task What_is_too_large_is_refused_in_words_and_the_next_request_is_answered(string path)
    {
        for (var i = 0; i < 20; i++)
        {
            using var answer = await server.Client.PostAsync(path, new ByteArrayContent(new byte[12 << 20]), _stop);
            Assert.Equal((HttpStatusCode.RequestEntityTooLarge, "close"), (answer.StatusCode, Header(answer, "Connection")));
            Assert.Contains("The request is larger than 2 MB.", await answer.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
            using var next = await server.Client.GetAsync("/css/fonts.css", _stop);
            Assert.Equal(HttpStatusCode.OK, next.StatusCode);
        }
    }

    [Fact]
    public void It_listens_on_the_loopback_address_only() => Assert.Equal("127.0.0.1", server.Client.BaseAddress!.Host);

    private static string Header(HttpResponseMessage answer, string name) => Assert.Single(answer.Headers.GetValues(name));
}
