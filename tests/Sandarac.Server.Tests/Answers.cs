using System.Net;
using System.Text.Json;

namespace Sandarac.Server.Tests;

internal static class Answers
{
    public static async Task<JsonElement> JsonAsync(this HttpResponseMessage response)
    {
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.IsSuccessStatusCode, $"{(int)response.StatusCode}: {text}");
        return JsonDocument.Parse(text).RootElement;
    }

    /// <summary>A refusal in the shape that every program may rely on: status, code, subject, remedy, and no trace of the program's inside.</summary>
    public static async Task<JsonElement> ProblemAsync(this HttpResponseMessage response, HttpStatusCode status, string code)
    {
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.StatusCode == status, $"{(int)response.StatusCode} instead of {(int)status}: {text}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonDocument.Parse(text).RootElement;
        Assert.Equal(code, problem.GetProperty("code").GetString());
        Assert.NotEmpty(problem.GetProperty("title").GetString()!);
        Assert.NotEmpty(problem.GetProperty("subject").GetString()!);
        Assert.NotEmpty(problem.GetProperty("remedy").GetString()!);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
        return problem;
    }
}
