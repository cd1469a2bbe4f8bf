@echo off
rem Everything that must pass, but for PostgreSQL and the browser where they are missing.
setlocal
set ROOT=%~dp0
call npm ci --prefix "%ROOT%viewer" --no-audit --no-fund || exit /b 1
call npm run --prefix "%ROOT%viewer" build || exit /b 1
call npm test --prefix "%ROOT%viewer" || exit /b 1
dotnet test --solution "%ROOT%Sandarac.slnx" -c Release
