using System.Net;
using System.Net.Http.Json;
using System.Text.Json;

namespace Sandarac.Server.Tests;

internal static class Answers
{
    public static async Task<JsonElement> JsonAsync(this HttpResponseMessage response, HttpStatusCode status = HttpStatusCode.OK)
    {
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.StatusCode == status, $"{(int)response.StatusCode} instead of {(int)status}: {text}");
        return JsonElement.Parse(text);
    }

    public static async Task<JsonElement> GetJsonAsync(this HttpClient client, string path)
    {
        using var answer = await client.GetAsync(path, TestContext.Current.CancellationToken);
        return await answer.JsonAsync();
    }

    /// <summary>Sends a body as JSON, naming the revision it was made on.</summary>
    public static Task<HttpResponseMessage> SendJsonAsync(this HttpClient client, HttpMethod method, string path, object? body, int? revision = null)
    {
        var request = new HttpRequestMessage(method, path) { Content = body is null ? null : body is string text ? new StringContent(text, null, "application/json") : JsonContent.Create(body) };
        if (revision is not null) request.Headers.IfMatch.Add(new($"\"{revision}\""));
        return client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    /// <summary>A refusal in the shape that every program may rely on: status, code, subject, remedy, and no trace of the program's inside.</summary>
    public static async Task<JsonElement> ProblemAsync(this HttpResponseMessage response, HttpStatusCode status, string code)
    {
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.StatusCode == status, $"{(int)response.StatusCode} instead of {(int)status}: {text}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonElement.Parse(text);
        Assert.Equal(code, problem.GetProperty("code").GetString());
        Assert.NotEmpty(problem.GetProperty("title").GetString()!);
        Assert.NotEmpty(problem.GetProperty("subject").GetString()!);
        Assert.NotEmpty(problem.GetProperty("remedy").GetString()!);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
        return problem;
    }
}
